/** Where the music lies: a weight over groove radius, straight between its points and level beyond them. */
import { within } from '../units/bounds.ts';

export interface MusicPoint {
  /** mm, 20–200 */
  readonly radius: number;
  /** any scale, ≥ 0 */
  readonly weight: number;
}

export type MusicWeight = readonly MusicPoint[];

/** The same weight everywhere: what plain least squares uses. */
export const evenWeight: MusicWeight = [
  { radius: 20, weight: 1 },
  { radius: 200, weight: 1 },
];

/**
 * A weight table, checked and sorted by radius.
 *
 * @throws RangeError for fewer than two points, a repeated radius, a negative weight, or nothing but noughts
 */
export function musicWeight(points: readonly MusicPoint[]): MusicWeight {
  if (points.length < 2) throw new RangeError(`the music weight has ${points.length} points; it needs at least 2`);
  const sorted = [...points].sort((a, b) => a.radius - b.radius);
  sorted.forEach((point, i) => {
    within('radius of a music weight', point.radius, 20, 200, 'mm');
    within(`music weight at ${point.radius} mm`, point.weight, 0, 1e9, '');
    if (i > 0 && point.radius === sorted[i - 1].radius) {
      throw new RangeError(`the music weight gives ${point.radius} mm twice; each radius may be given once`);
    }
  });
  if (!sorted.some((point) => point.weight > 0))
    throw new RangeError('the music weight is 0 everywhere; one at least must be over 0');
  return sorted;
}

/** Weight at a radius, r in mm. */
export function weightAt(music: MusicWeight, r: number): number {
  if (r <= music[0].radius) return music[0].weight;
  for (let i = 1; i < music.length; i++) {
    const right = music[i];
    if (r <= right.radius) {
      const left = music[i - 1];
      return left.weight + ((right.weight - left.weight) * (r - left.radius)) / (right.radius - left.radius);
    }
  }
  return music[music.length - 1].weight;
}
