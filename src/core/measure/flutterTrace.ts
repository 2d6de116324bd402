/** A speed trace on its way into a spectrum and back: continued at its ends, its lines taken out and put in, its powers smoothed. */
import { workArray } from '../signal/workArrays.ts';
import type { SlowLine } from './slowLines.ts';

export type Gain = (hz: number) => number;

/** smoothing reaches this share of the frequency */
const SMOOTH_SHARE = 0.06;

/** Adds the lines, each times `gain` at its frequency, to a trace. */
export function addLines(x: Float64Array, lines: readonly SlowLine[], rateHz: number, gain: Gain): void {
  for (const { hz, cos, sin } of lines) {
    const g = gain(hz);
    const step = (2 * Math.PI * hz) / rateHz;
    const start = (-step * (x.length - 1)) / 2;
    // a rotating pair (value, its quarter turn later); 120 000 steps lose 1e-11
    let value = g * (cos * Math.cos(start) + sin * Math.sin(start));
    let turned = g * (sin * Math.cos(start) - cos * Math.sin(start));
    const c = Math.cos(step);
    const s = Math.sin(step);
    for (let n = 0; n < x.length; n++) {
      x[n] += value;
      const next = value * c + turned * s;
      turned = turned * c - value * s;
      value = next;
    }
  }
}

/** The trace, its mean out, from `lead` on in an array of `size`, continued to both sides by its mirror images. */
export function mirrored(x: Float64Array, size: number, lead: number): Float64Array {
  const length = x.length;
  let mean = 0;
  for (let n = 0; n < length; n++) mean += x[n];
  mean /= length;
  const out = workArray(size);
  // reflect about the half samples at both ends, as often as needed
  let at = -lead;
  while (at < 0) at += 2 * length;
  for (let n = 0; n < size; n++) {
    out[n] = x[at < length ? at : 2 * length - 1 - at] - mean;
    at = at + 1 === 2 * length ? 0 : at + 1;
  }
  return out;
}

/** Each bin's mean with its neighbours, independent ones or a share of the frequency, to either side. @param least bins */
export function smoothed(power: Float64Array, least: number): Float64Array {
  const sums = workArray(power.length + 1);
  for (let k = 0; k < power.length; k++) sums[k + 1] = sums[k] + power[k];
  const out = workArray(power.length);
  for (let k = 1; k < power.length; k++) {
    const reach = Math.max(least, Math.round(SMOOTH_SHARE * k));
    const from = Math.max(1, k - reach);
    const to = Math.min(power.length, k + reach + 1);
    out[k] = (sums[to] - sums[from]) / (to - from);
  }
  return out;
}
