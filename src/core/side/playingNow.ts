/** The provisional figures of what plays, from its own readings and the last ones of the bands that belong to it. */
import { assumedOf } from '../advise/budget/assumedOf.ts';
import { type RecordError, recordError } from '../advise/budget/recordError.ts';
import type { SideDocument } from '../advise/document.ts';
import type { Readings } from '../measure/estimators.ts';
import { provisionalFigures } from '../measure/figuresOfSide.ts';
import { sideReadings } from '../measure/readingsOfSide.ts';
import type { PassageReading, SideReadings } from '../measure/sideReadings.ts';
import type { Band } from '../record/band.ts';
import { matchSheet } from '../record/matchSheet.ts';
import type { Steps } from '../signal/steps.ts';
import type { SideOptions } from './examineSide.ts';
import { soundsAlike } from './follower.ts';
import { judgedFigures } from './sideDocument.ts';

/** A band that was read; provisional until `finish`. */
export interface SettledReading {
  readonly band: Band;
  readonly readings: Readings;
}

/** What plays now, and what can be said of it. */
export interface PlayingNow {
  /** its `endS` is what was heard of it so far */
  readonly band: Band;
  readonly playingS: number;
  /** of this band; empty for about a second after it began */
  readonly readings: Readings;
  /**
   * From this band and the last reading of each other one at its frequency, judged and with advice: what a hand that turns a
   * screw waits for. Everything else waits for the end.
   */
  readonly figures: Pick<SideDocument, 'findings' | 'advice' | 'problems'>;
  /** s since the leak stands still again after the headshell was turned in this band; null where it was not */
  readonly turnedAgoS: number | null;
}

export const NOTHING_YET: Pick<PlayingNow, 'readings' | 'figures'> = {
  readings: {},
  figures: { findings: [], advice: [], problems: [] },
};

export const recordErrorOf = ({ sheet, learned, bench }: SideOptions): RecordError =>
  recordError(sheet?.cut, learned, bench);

type Matched = Pick<ReturnType<typeof matchSheet>, 'bands' | 'order'>;

const matched = (bands: readonly Band[], { sheet }: SideOptions): Matched =>
  sheet === undefined ? { bands: [...bands], order: 'unknown' } : matchSheet(bands, sheet);

/**
 * @param matched the bands of `heard`, in the same order, with their places in the record file
 * @param beside what lies between bands @param spoiled stretches whose samples are not the groove's
 */
export function sideOf(
  heard: readonly SettledReading[],
  { bands, order }: Matched,
  options: SideOptions,
  beside: readonly PassageReading[] = [],
  spoiled: SideReadings['spoiled'] = [],
): SideReadings {
  const ofBands = heard.map(({ band: { startS, endS, signal }, readings }, i): PassageReading => {
    const band = bands[i];
    return { passage: { signal, startS, endS, band }, readings };
  });
  const passages = [...ofBands, ...beside].sort((a, b) => a.passage.startS - b.passage.startS);
  return sideReadings(passages, bands, { ...options, order, spoiled, assumed: assumedOf(recordErrorOf(options)) });
}

/** @param settled bands that were read before */
export function* figuresNow(
  now: SettledReading,
  settled: readonly SettledReading[],
  options: SideOptions,
): Steps<PlayingNow['figures']> {
  const related = settled.filter((one) => isRelated(one.band, now.band));
  const heard = lastOfEachKind([...related, now]);
  const bands = heard.map((one) => one.band);
  const measured = provisionalFigures(sideOf(heard, matched(bands, options), options));
  yield;
  return judgedFigures(measured, [], bands, recordErrorOf(options), options.limits?.limits);
}

/** Tones at one frequency tell separation, tilt and balance between them. */
const isRelated = (a: Band, b: Band): boolean =>
  a.frequencyHz !== null && b.frequencyHz !== null && Math.abs(a.frequencyHz / b.frequencyHz - 1) < 0.04;

/** Of bands that sound alike the last, so that a turned screw shows at once. */
function lastOfEachKind(readings: readonly SettledReading[]): SettledReading[] {
  return readings.filter(
    ({ band }, i) =>
      !readings.slice(i + 1).some((later) => soundsAlike(band, later.band) && band.motion === later.band.motion),
  );
}
