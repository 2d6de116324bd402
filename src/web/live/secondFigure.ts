/** What the second screen is told: the figure of the station, as the bench page shows it. */
import type { JudgedFinding } from '../../core/advise/document.ts';
import { guideTilt, type SettledTilt, type TiltReading } from '../../core/advise/live/tiltGuide.ts';
import type { SecondFigure } from '../../core/job/api.ts';
import { shownFigure } from '../../core/words/figure.ts';
import { isSigned, quantityTitle } from '../../core/words/quantities.ts';
import { say, statement } from '../../core/words/statement.ts';

const NOTHING: SecondFigure = {
  listening: true,
  band: '',
  figure: null,
  turnDeg: null,
  says: '',
  good: false,
  notes: [],
  ageS: 0,
};

export const notListening = (): SecondFigure => ({
  ...NOTHING,
  listening: false,
  says: say(statement('second-not-listening')),
});

/** The tilt as `TiltGuide` shows it. @param ageS since it was read; 0 while its band plays */
export function tiltOnSecond(
  band: string,
  now: TiltReading | null,
  settled: readonly SettledTilt[],
  partnerAgeS: number | null,
  ageS: number,
): SecondFigure {
  const guide = guideTilt(now, settled);
  const says = say(guide.says);
  const good = guide.state === 'good-enough';
  if (now === null) return { ...NOTHING, band, says };
  const { uncertaintyDeg } = now;
  const notes = [
    ...(uncertaintyDeg === null ? [] : [say(statement('second-record', { total: uncertaintyDeg }))]),
    ...(partnerAgeS === null || partnerAgeS <= 0
      ? []
      : [say(statement('second-partner', { seconds: partnerAgeS + ageS }))]),
  ];
  return {
    ...NOTHING,
    band,
    figure: {
      title: quantityTitle('azimuth-error'),
      value: now.tiltDeg,
      unit: 'deg',
      uncertainty: now.spreadDeg,
      signed: true,
    },
    turnDeg: guide.state === 'turn' ? now.turnDeg : null,
    says,
    good,
    notes,
    ageS,
  };
}

/** Which figure of a band is the large one, most telling first; any other comes after them. */
const FIRST = ['speed-error', 'hum', 'noise-a-weighted', 'wow-flutter-weighted', 'channel-balance'];
const MOST_NOTES = 3;

const rank = ({ quantity }: JudgedFinding): number => {
  const at = FIRST.indexOf(quantity);
  return at < 0 ? FIRST.length : at;
};

/** Figures of the band that plays, or of the last that told any: the first large, the next three in lines. */
export function findingsOnSecond(band: string, findings: readonly JudgedFinding[], ageS: number): SecondFigure {
  const told = findings
    .flatMap((one) => (typeof one.value === 'number' ? [{ ...one, value: one.value }] : []))
    .sort((a, b) => rank(a) - rank(b));
  const [first, ...rest] = told;
  if (first === undefined) return { ...NOTHING, band, says: say(statement('second-no-figure')) };
  const titleOf = ({ quantity, channel }: JudgedFinding): string =>
    [quantityTitle(quantity), channel].filter((part) => part !== undefined).join(', ');
  return {
    ...NOTHING,
    band,
    figure: {
      title: titleOf(first),
      value: first.value,
      unit: first.unit,
      uncertainty: first.uncertainty,
      signed: isSigned(first.quantity),
    },
    good: first.verdict === 'good',
    notes: rest
      .slice(0, MOST_NOTES)
      .map((one) => `${titleOf(one)} ${shownFigure(one.value, one.unit, one.uncertainty, isSigned(one.quantity))}`),
    ageS,
  };
}
