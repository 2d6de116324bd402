/**
 * Why a station is to be looked at again: kept as codes and values, told as sentences when it is read. A sentence of an
 * earlier version stays as it was written, since nothing takes sentences apart.
 */
import type { RecheckTolerance } from '../advise/recheck.ts';
import { tidy } from '../words/number.ts';
import { type Statement, say, sayAll, statement } from '../words/statement.ts';
import type { Mark, StationState } from './api.ts';
import { whatMoveMakesStale } from './stale.ts';
import { type StationName, stationTitles } from './station.ts';

/** A mark as a store keeps it: `because` only where an earlier version said it in other words than its codes give now. */
export type KeptMark = Omit<Mark, 'because'> & { readonly because?: string };

/** One reason as a store keeps it: a mark, a recording read after the closing, or a sentence of an earlier version. */
export type KeptReason = string | KeptMark | { readonly readSince: string };

type Told = Pick<StationState, 'staleBecause' | 'marks' | 'readSince'>;
type Effect = NonNullable<Mark['effect']>;

const shown = (size: number, unit: string): string =>
  `${tidy(Number(Math.abs(size).toPrecision(2)))}${unit === 'deg' ? '°' : unit === '' ? '' : ` ${unit}`}`;

/** "About 0.26 mN here; up to 0.2 mN needs no second look." */
function sizeTold({ size, most, unit, quantity, sum = size }: Effect): Statement {
  const words = (one: number): string => `${shown(one, unit)}${quantity === 'threads' ? ' of a thread' : ''}`;
  const alone = { size: words(size), most: words(most) };
  return Math.abs(sum - size) > 1e-9
    ? statement('mark-size-together', { ...alone, sum: words(sum) })
    : statement('mark-size', alone);
}

/** What a mark at `station` says. null where its move is no longer held to touch that station. */
export function markSays({ move, station: made, note = '', effect }: KeptMark, station: StationName): string | null {
  const dependency = whatMoveMakesStale(move).find((one) => one.station === station);
  if (dependency === undefined) return null;
  const { moved, reason } = dependency;
  const place = { moved, station: stationTitles[made].title, reason };
  return sayAll([
    note === '' ? statement('mark-at', place) : statement('mark-noted-at', { ...place, note }),
    ...(effect === undefined ? [] : [sizeTold(effect)]),
  ]);
}

const readSays = (file: string): string => say(statement('read-after-closing', { file }));

/** As a station's state tells it: sentences beside what they are made of. */
export function toldReasons(station: StationName, kept: readonly KeptReason[]): Told {
  const marks: Mark[] = [];
  const readSince: string[] = [];
  const staleBecause = kept.flatMap((one) => {
    if (typeof one === 'string') return [one];
    if ('readSince' in one) {
      readSince.push(one.readSince);
      return [readSays(one.readSince)];
    }
    const because = one.because ?? markSays(one, station) ?? '';
    marks.push({ ...one, because });
    return one.counts ? [because] : [];
  });
  return {
    ...(staleBecause.length === 0 ? {} : { staleBecause }),
    ...(marks.length === 0 ? {} : { marks }),
    ...(readSince.length === 0 ? {} : { readSince }),
  };
}

/** As a store keeps it: whatever follows from codes and values is left out. */
export function keptReasons(
  station: StationName,
  { staleBecause = [], marks = [], readSince = [] }: Told,
): readonly KeptReason[] {
  const made = new Set([...marks.map(({ because }) => because), ...readSince.map(readSays)]);
  return [
    ...staleBecause.filter((reason) => !made.has(reason)),
    ...marks.map((mark): KeptReason => {
      const { because, ...codes } = mark;
      return markSays(codes, station) === because ? codes : mark;
    }),
    ...readSince.map((file) => ({ readSince: file })),
  ];
}

/** What tells one reason to look again from another: when its move was made; of sentences without one, that they are earlier. */
export function reasonKeys({
  status,
  staleBecause = [],
  marks = [],
}: Pick<StationState, 'status'> & Told): readonly string[] {
  if (status !== 'stale') return [];
  const counting = marks.filter(({ counts }) => counts);
  const made = new Set(counting.map(({ because }) => because));
  return [...(staleBecause.some((reason) => !made.has(reason)) ? [EARLIER] : []), ...counting.map(({ at }) => at)];
}

/** Stands for the time of what an earlier version kept without one. */
export const EARLIER = 'earlier';

/** @param sum with what was noted before, signed, in the unit of the tolerance */
export const sizedEffect = (
  { quantity, size }: Pick<Effect, 'quantity' | 'size'>,
  sum: number,
  { most, unit }: RecheckTolerance,
): Effect => ({ quantity, size, most, unit, ...(Math.abs(sum - size) > 1e-9 ? { sum } : {}) });
