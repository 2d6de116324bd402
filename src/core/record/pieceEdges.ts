/**
 * Where a piece really begins and ends, to a fraction of a hop, and where its steady part does.
 *
 * In the hop through which an edge runs, a Hann window sees the part x of the tone with the amplitude
 *
 *   a(x) = x − sin(2πx) / 2π
 *
 * of the full tone; its inverse gives x. The slow spectrum is 16384 frames wide and moves by a hop: its amplitude passes
 * one half when the edge is at its middle.
 */

import { median } from '../signal/robust.ts';
import { CROSSOVER_HZ, type HopSpectra } from './hopSpectra.ts';
import { power } from './toneTracks.ts';
import type { Piece } from './trackSegments.ts';

export interface Edges {
  /** s, where the tone is half there */
  readonly startS: number;
  readonly endS: number;
  /** s, from where and until where its level stays within 1 dB of what it is */
  readonly steadyFromS: number;
  readonly steadyToS: number;
}

const STEADY = 0.89;
/** hops beside the edge that the level is taken from */
const SHOULDER = 10;

export function edgesOf(piece: Piece, spectra: HopSpectra): Edges {
  const start = edge(piece, 1);
  const end = edge(piece, -1);
  return {
    startS: spectra.timeOf(start.edge),
    steadyFromS: spectra.timeOf(start.steady),
    endS: spectra.timeOf(end.edge),
    steadyToS: spectra.timeOf(end.steady),
  };
}

/** @param direction 1 at the start, −1 at the end (time reversed). @returns hops, fractional, from the capture's start */
function edge(piece: Piece, direction: 1 | -1): { edge: number; steady: number } {
  const { points, track } = piece;
  const first = direction === 1 ? points[0] : points[points.length - 1];
  const stepped = direction === 1 ? piece.startsAtStep : piece.endsAtStep;
  const low = first.frequencyHz < CROSSOVER_HZ;
  // Position of the middle of hop `first + direction·i`, and a count of i from there outwards.
  const at = (i: number): number => first.hop + 0.5 + direction * (i - 0.5);
  if (stepped) return { edge: at(0), steady: at(low ? 2.5 : 1) };

  const inside = direction === 1 ? points : [...points].reverse();
  const skip = low ? 5 : 1;
  const shoulder = inside.slice(skip, skip + SHOULDER);
  const full = Math.sqrt(median((shoulder.length > 0 ? shoulder : inside).map(power)));
  const amplitudes = new Map(track.map((point) => [point.hop, Math.sqrt(power(point)) / full]));
  const amplitude = (i: number): number => Math.min(1, amplitudes.get(first.hop + direction * i) ?? 0);

  if (low) {
    const half = crossing(amplitude, 0.5);
    return { edge: at(half + 0.5), steady: at(Math.max(half, crossing(amplitude, STEADY)) + 0.5) };
  }
  let i = 0;
  while (i < 8 && amplitude(i) < 0.7) i += 1;
  const x = covered(amplitude(i)) + covered(Math.min(amplitude(i - 1), 1));
  let steady = i;
  while (steady < i + 8 && amplitude(steady) < STEADY) steady += 1;
  return { edge: at(i + 1 - x), steady: at(steady) };
}

/** Hops, fractional, where the amplitude rises through `level`; hop i's middle is at i. */
function crossing(amplitude: (i: number) => number, level: number): number {
  let i = 0;
  while (i > -6 && amplitude(i) >= level) i -= 1;
  while (i < 8 && amplitude(i + 1) < level) i += 1;
  const a = amplitude(i);
  const b = amplitude(i + 1);
  return b > a ? i + Math.min(1, Math.max(0, (level - a) / (b - a))) : i + 1;
}

/** The part of a hop that a tone fills, from the amplitude that a Hann window sees: inverts x − sin(2πx)/2π. */
export function covered(a: number): number {
  if (!(a > 0.015)) return 0;
  if (a > 0.985) return 1;
  let low = 0;
  let high = 1;
  for (let k = 0; k < 12; k++) {
    const x = (low + high) / 2;
    if (x - Math.sin(2 * Math.PI * x) / (2 * Math.PI) < a) low = x;
    else high = x;
  }
  return (low + high) / 2;
}
