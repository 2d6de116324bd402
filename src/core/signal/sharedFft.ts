/**
 * Transforms by size, made once: their tables of sines cost more than a run. A transform keeps nothing from run to run.
 */
import { ComplexFft } from './fft.ts';

const made = new Map<number, ComplexFft>();
/** sizes kept at most */
const MOST = 12;

/** @param size points, a power of two */
export function sharedFft(size: number): ComplexFft {
  const known = made.get(size);
  if (known !== undefined) return known;
  const fft = new ComplexFft(size);
  if (made.size >= MOST) made.delete(made.keys().next().value!);
  made.set(size, fft);
  return fft;
}

/** Smallest power of two of at least `length`, 64 up. */
export function transformSize(length: number): number {
  let size = 64;
  while (size < length) size *= 2;
  return size;
}
