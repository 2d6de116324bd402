/**
 * The same bands played twice or more within one recording: each figure's scatter from play to play, a Type A figure.
 *
 * A play is every band's n-th time. Figures of single bands are compared band by band; figures of several, such as the tilt, are worked out anew for each
 * play from its bands alone, as if it were the whole side.
 */

import { shownSpread } from '../words/figure.ts';
import { statement } from '../words/statement.ts';
import type { Finding } from './finding.ts';
import type { SideReadings } from './sideReadings.ts';
import { type TypeA, typeA } from './typeA.ts';

type Key = Pick<Finding, 'quantity' | 'channel' | 'unit' | 'atHz'>;
const keyOf = ({ quantity, channel, unit }: Key): string => `${quantity} ${channel ?? ''} ${unit}`;

/** Of figures that are there once. */
function singles(findings: readonly Finding[]): Map<string, number> {
  const values = new Map<string, number | null>();
  for (const finding of findings) {
    const key = keyOf(finding);
    values.set(key, values.has(key) || typeof finding.value !== 'number' ? null : finding.value);
  }
  return new Map([...values].flatMap(([key, value]) => (value === null ? [] : [[key, value] as const])));
}

/** Indices of bands by their place in the record file, in the order in which they play; those that were played again. */
function timesPlayed(side: SideReadings): number[][] {
  const places = new Map<number, number[]>();
  for (const { passage } of side.passages ?? []) {
    const { band } = passage;
    if (band === null || band.sheetBand === null) continue;
    places.set(band.sheetBand, [...(places.get(band.sheetBand) ?? []), band.index]);
  }
  return [...places.values()].filter((indices) => indices.length > 1);
}

const only = (side: SideReadings, bands: ReadonlySet<number>): SideReadings => ({
  ...side,
  tones: side.tones.filter(({ band }) => bands.has(band.index)),
  passages: side.passages?.filter(({ passage: { band } }) => band !== null && bands.has(band.index)),
  untoned: side.untoned?.filter(({ index }) => bands.has(index)),
});

/** Values of every figure that several bands make, one a play; of the bands that were played most often first. */
function playByPlay(
  side: SideReadings,
  repeated: readonly (readonly number[])[],
  figures: (side: SideReadings) => readonly Finding[],
): Map<string, number[]> {
  const told = new Map<string, number[]>();
  const counts = [...new Set(repeated.map(({ length }) => length))].sort((a, b) => b - a);
  for (const count of counts) {
    const bands = repeated.filter(({ length }) => length >= count);
    const plays = Array.from({ length: count }, (_, n) => {
      const of = new Set(bands.map((indices) => indices[n]));
      return singles(figures(only(side, of)));
    });
    for (const [key, first] of plays[0]) {
      const rest = plays.slice(1).flatMap((play) => play.get(key) ?? []);
      if (!told.has(key) && rest.length === count - 1) told.set(key, [first, ...rest]);
    }
  }
  return told;
}

const within = (finding: Finding, { count, mean, scatter, uncertainty }: TypeA): Finding => ({
  ...finding,
  repeats: { count, fromMean: mean - (finding.value as number), scatter, uncertainty },
  notes: [...finding.notes, statement('played-again', { count, scatter: shownSpread(scatter, finding.unit) })],
});

/** @param figures of a side or a part of it, without this */
export function withTypeA(
  findings: readonly Finding[],
  side: SideReadings,
  figures: (side: SideReadings) => readonly Finding[],
): Finding[] {
  const repeated = timesPlayed(side);
  if (repeated.length === 0) return [...findings];
  const whole = playByPlay(side, repeated, figures);
  const ofSide = singles(findings);
  return findings.map((finding) => {
    if (typeof finding.value !== 'number') return finding;
    const key = keyOf(finding);
    const others = repeated.find((indices) => finding.bands.length === 1 && indices.includes(finding.bands[0]));
    const values = ofSide.has(key)
      ? whole.get(key)
      : others === undefined || finding.atHz !== undefined
        ? undefined
        : findings.flatMap((one) =>
            keyOf(one) === key &&
            one.bands.length === 1 &&
            others.includes(one.bands[0]) &&
            typeof one.value === 'number'
              ? [one.value]
              : [],
          );
    const of = values === undefined ? null : typeA(values);
    return of === null ? finding : within(finding, of);
  });
}
