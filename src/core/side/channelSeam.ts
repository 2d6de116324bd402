/**
 * Bytes that are missing or too many in the middle of a file: from there on left stands where right was, and a tone on one
 * wall goes on, without a pause and in step, in the other channel. No groove does that: two bands have a gap between
 * them, or begin out of step.
 *
 * Found where the seam lies in a one-sided tone. In a lateral tone or between bands nothing but a record sheet tells it.
 *
 * @checked channelSeam.test.ts
 */
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import { wrapped } from '../units/units.ts';

export interface ChannelSeam {
  /** s from the first frame */
  readonly atS: number;
  /** index of the first band after it */
  readonly band: number;
}

/** s between the steady parts of two bands that touch: both are trimmed at their ends */
const TOUCHING_S = 0.25;
const SAME_HZ = 0.005;
/** s that a tone's phase is read from, or as many periods as here where that is longer */
const WINDOW_S = 0.004;
const LEAST_PERIODS = 5;
/** beside the seam, of the full tone: what must be there, and what must not */
const THERE = 0.8;
const GONE = 0.5;
/** frames that the channels may stand apart, and degrees that noise and wow turn a phase by */
const MOST_FRAMES = 2;
const MOST_TURN = (10 * Math.PI) / 180;

interface Touching {
  readonly from: 'left' | 'right';
  readonly frequencyHz: number;
  readonly fromS: number;
  readonly toS: number;
  readonly band: number;
}

/** One-sided tones that touch, alike but for the wall. What the sheet has as two bands are two. */
function touchingTones(bands: readonly Band[]): Touching[] {
  return bands.slice(1).flatMap((b, i) => {
    const a = bands[i];
    const from = a.motion;
    if (from !== 'left' && from !== 'right') return [];
    const alike =
      b.motion === (from === 'left' ? 'right' : 'left') &&
      a.frequencyHz !== null &&
      b.frequencyHz !== null &&
      Math.abs(a.frequencyHz / b.frequencyHz - 1) < SAME_HZ;
    const bothCut = a.sheetBand !== null && b.sheetBand !== null;
    if (!alike || bothCut || b.startS - a.endS > TOUCHING_S) return [];
    const touching = {
      from,
      frequencyHz: a.frequencyHz!,
      fromS: a.endS - 0.1,
      toS: b.startS + 0.1,
      band: b.index,
    } as const;
    return [touching];
  });
}

/** The first seam of a recording, or null. @param bands in order, matched to the sheet where there is one */
export async function findChannelSeam(recording: Recording, bands: readonly Band[]): Promise<ChannelSeam | null> {
  const { sampleRateHz, frames } = recording.format;
  for (const touching of touchingTones(bands)) {
    const fromFrame = Math.max(0, Math.round(touching.fromS * sampleRateHz));
    const toFrame = Math.min(frames, Math.round(touching.toS * sampleRateHz));
    const left = new Float64Array(toFrame - fromFrame);
    const right = new Float64Array(toFrame - fromFrame);
    for await (const block of recording.blocks({ fromFrame, toFrame })) {
      left.set(block.left.subarray(0, block.frames), block.startFrame - fromFrame);
      right.set(block.right.subarray(0, block.frames), block.startFrame - fromFrame);
    }
    const [before, after] = touching.from === 'left' ? [left, right] : [right, left];
    const at = seamBetween(before, after, touching.frequencyHz / sampleRateHz, Math.ceil(WINDOW_S * sampleRateHz));
    if (at !== null) return { atS: (fromFrame + at) / sampleRateHz, band: touching.band };
  }
  return null;
}

/**
 * Where a tone leaves one series and goes on in the other in the same step; null where it does not.
 *
 * @param cycles of the tone a sample
 */
export function seamBetween(before: Float64Array, after: Float64Array, cycles: number, window: number): number | null {
  const length = Math.max(window, Math.ceil(LEAST_PERIODS / cycles));
  if (before.length < 4 * length) return null;
  const full = Math.min(tone(before, 0, length, cycles).size, tone(after, after.length - length, length, cycles).size);
  let best: number | null = null;
  let most = 0;
  for (let at = length; at + length <= before.length; at++) {
    const left = tone(before, at - length, length, cycles);
    const right = tone(after, at, length, cycles);
    const both = Math.min(left.size, right.size);
    if (both <= most) continue;
    most = both;
    const turn = wrapped(right.phase - left.phase);
    const inStep = Math.abs(turn) < MOST_TURN + 2 * Math.PI * cycles * MOST_FRAMES;
    const exchanged =
      tone(before, at, length, cycles).size < GONE * full &&
      tone(after, at - length, length, cycles).size < GONE * full;
    best = both > THERE * full && inStep && exchanged ? at : null;
  }
  return best;
}

/** Size and phase of a tone over some samples, the phase against sample 0 of the series. */
function tone(x: Float64Array, from: number, length: number, cycles: number): { size: number; phase: number } {
  let re = 0;
  let im = 0;
  for (let n = from; n < from + length; n++) {
    const angle = 2 * Math.PI * cycles * n;
    re += x[n] * Math.cos(angle);
    im -= x[n] * Math.sin(angle);
  }
  return { size: Math.hypot(re, im), phase: Math.atan2(im, re) };
}
