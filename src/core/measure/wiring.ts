/** Polarity and channel order. */
import type { Finding } from './finding.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';

export interface Polarity {
  readonly inverted: boolean;
  /** bands it was read from; empty where no tone drives both walls */
  readonly bands: readonly ToneBand[];
  readonly note: string;
}

/** The two channels are in phase here, as a lateral cut through a chain in order gives them. */
const inPhase = (tone: ToneBand): boolean =>
  tone.reading.segments.reduce((sum, s) => sum + s.usedS * Math.sign(s.ratio.re), 0) > 0;

const isSpeedTone = (hz: number): boolean => Math.abs(hz / 3150 - 1) < 0.03 || Math.abs(hz / 3000 - 1) < 0.02;

/** Without a speed tone a channel is taken for reversed only where this many times more is heard in antiphase than in phase. */
const FAR_MORE = 3;

/**
 * Which way round the channels are. A sheet says which bands are lateral; without one a lateral cut with a reversed
 * channel looks like a vertical cut, so: speed tones are cut laterally; where there is none, what far the most of the
 * two-walled tones, sweeps and noise show counts, for test records are mostly lateral. Where both kinds are heard about as
 * long, as on a record with a lateral and a vertical level tone, the leads are taken to be right: most are.
 */
export function polarityOf({ tones, untoned = [] }: SideReadings): Polarity {
  const both = tones.filter((t) => t.driven === 'both');
  const cutBoth = both.filter((t) => t.cut?.motion === 'lateral' || t.cut?.motion === 'vertical');
  if (cutBoth.length > 0) {
    const time = (agree: boolean): number =>
      cutBoth.reduce((s, t) => s + ((inPhase(t) === (t.cut?.motion === 'lateral')) === agree ? t.usedS : 0), 0);
    return { inverted: time(false) > time(true), bands: cutBoth, note: 'The sheet says which bands are lateral.' };
  }
  if (both.length === 0) return { inverted: false, bands: [], note: '' };
  const speed = both.filter((t) => isSpeedTone(t.meanHz));
  if (speed.length > 0) {
    const inverted = speed.reduce((s, t) => s + (inPhase(t) ? t.usedS : -t.usedS), 0) < 0;
    return { inverted, bands: speed, note: 'Without a record sheet the speed tone is taken to be cut laterally.' };
  }
  const broad = (motion: 'lateral' | 'vertical'): number =>
    untoned
      .filter((b) => b.motion === motion && (b.signal === 'sweep' || b.signal === 'noise'))
      .reduce((s, b) => s + b.endS - b.startS, 0);
  const toned = (phase: boolean): number => both.reduce((s, t) => s + (inPhase(t) === phase ? t.usedS : 0), 0);
  const inverted = toned(false) + broad('vertical') > FAR_MORE * (toned(true) + broad('lateral'));
  const note =
    'Without a record sheet most of what is cut in both walls is taken to be lateral, and mixed cuts to be in phase.';
  return { inverted, bands: both, note };
}

/** The two walls move laterally here, whichever way round the channels are. */
export const isLateral = (tone: ToneBand, polarity: Polarity): boolean =>
  tone.driven === 'both' && (tone.cut === null ? inPhase(tone) !== polarity.inverted : tone.cut.motion === 'lateral');

export const isVertical = (tone: ToneBand, polarity: Polarity): boolean =>
  tone.driven === 'both' && !isLateral(tone, polarity);

export function wiringFindings(side: SideReadings, polarity: Polarity): Finding[] {
  const findings: Finding[] = [];
  if (polarity.bands.length > 0) {
    const what = polarity.inverted
      ? 'Left and right come out in antiphase on a lateral tone: one channel is reversed. '
      : '';
    findings.push({
      quantity: 'polarity',
      value: polarity.inverted ? 'antiphase' : 'in-phase',
      unit: '',
      uncertainty: null,
      bands: polarity.bands.map((t) => t.band.index),
      note: `${what}${polarity.note} It is one or the other: no uncertainty belongs to it.`,
    });
  }
  if (side.sheet !== null && side.order !== 'unknown') {
    const matched = side.tones.filter((t) => t.cut?.motion === 'left' || t.cut?.motion === 'right');
    findings.push({
      quantity: 'channel-order',
      value: side.order,
      unit: '',
      uncertainty: null,
      bands: matched.map((t) => t.band.index),
      note:
        side.order === 'swapped'
          ? 'What the sheet cuts in the left wall comes out right. The swap is undone in every figure here: left means the left wall. It is one or the other: no uncertainty belongs to it.'
          : 'Left comes out left and right comes out right. It is one or the other: no uncertainty belongs to it.',
    });
  }
  return findings;
}
