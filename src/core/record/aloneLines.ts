/**
 * Whether a line is alone: harmonics and mixing products of a test record are small, those of voices and chords are not. Lines below a band count for
 * less, for hum and rumble live there.
 *
 * @checked aloneLines.test.ts, bandFinder.test.ts
 */
import { median } from '../signal/robust.ts';
import type { LinesOfHop } from './heardLines.ts';
import type { Line } from './lineStore.ts';
import { power } from './toneTracks.ts';

/** what other lines may hold against a band's own, power */
const MOST_OTHERS = 0.15;

/** @param own Hz, one line or two @param toHop one past the last */
export function isAlone(own: readonly number[], fromHop: number, toHop: number, linesOf: LinesOfHop): boolean {
  const shares: number[] = [];
  for (let hop = fromHop; hop < toHop; hop++) shares.push(besideOwn(linesOf(hop), own));
  return isLittle(shares);
}

/** The same of a line that moves: a voice that falls at the end of a sentence takes its harmonics with it. */
export const isSweepAlone = (points: readonly Line[], linesOf: LinesOfHop): boolean =>
  isLittle(points.slice(1, -1).map(({ hop, frequencyHz }) => besideOwn(linesOf(hop), [frequencyHz])));

/** Not finite where the band's own line is not heard. */
function besideOwn(lines: readonly Line[], own: readonly number[]): number {
  const lowest = Math.min(...own);
  let mine = 0;
  let others = 0;
  for (const line of lines) {
    if (own.some((hz) => Math.abs(line.frequencyHz / hz - 1) < 0.03 + 8 / hz)) mine += power(line);
    else others += power(line) * Math.min(1, line.frequencyHz / lowest) ** 3;
  }
  return others / mine;
}

function isLittle(shares: readonly number[]): boolean {
  const heard = shares.filter(Number.isFinite);
  return heard.length === 0 || median(heard) < MOST_OTHERS;
}
