/**
 * The tone inside a complex baseband: where it really sounds, which samples a click has spoilt, and its phase without
 * jumps. Edges that lie in a gap or a fade, holes and clicks are left out; what is left is one continuous stretch.
 */
import { markClicks } from './toneClicks.ts';
import { workArray, workBytes } from './workArrays.ts';

export interface TrackedTone {
  readonly found: true;
  /** first sample of the stretch, and one past its last */
  readonly from: number;
  readonly to: number;
  /** 1 where a sample of the whole baseband may be used; outside [from, to) always 0 */
  readonly good: Uint8Array;
  /** usable samples */
  readonly goodCount: number;
  /** rad, unwrapped, against the mixing frequency; straight lines over holes; meaningful in [from, to) */
  readonly phase: Float64Array;
  /** peak amplitude that most samples keep within 1 dB */
  readonly usualAmplitude: number;
}

/** `tone-broken`: too short, or too often gone; `tone-in-clicks`: too little of it is free of clicks */
export type ToneTracking =
  | TrackedTone
  | { readonly found: false; readonly why: 'no-tone' | 'tone-broken' | 'tone-in-clicks' };

/** s around a click that the baseband's filters smear it over */
const CLICK_REACH_S = 0.014;
/** a longer hole ends the stretch */
const LONGEST_HOLE_S = 0.25;
/** samples this far from the usual amplitude are no part of the tone */
const LEVEL_REACH = 2.5;
/** a stretch this many times as long as its blind ends can spare them */
const SPARES_ITS_ENDS = 16;

/** Its series are lent, see workArrays.ts. @param re @param im baseband of the driven signal @param rateHz its rate, Hz */
export function trackTone(re: Float64Array, im: Float64Array, rateHz: number): ToneTracking {
  const length = re.length;
  if (im.length !== length) throw new RangeError(`re and im hold ${length} and ${im.length} samples`);
  const amplitude = workArray(length);
  for (let n = 0; n < length; n++) amplitude[n] = Math.sqrt(re[n] * re[n] + im[n] * im[n]);
  const usualAmplitude = commonLevel(amplitude);
  if (!(usualAmplitude > 1e-9)) return { found: false, why: 'no-tone' };

  const good = workBytes(length);
  const low = usualAmplitude / LEVEL_REACH;
  const high = usualAmplitude * LEVEL_REACH;
  for (let n = 0; n < length; n++) good[n] = amplitude[n] > low && amplitude[n] < high ? 1 : 0;
  const reach = Math.ceil(CLICK_REACH_S * rateHz);
  widenHoles(good, reach);

  const run = longestRun(good, Math.round(LONGEST_HOLE_S * rateHz));
  if (run.to - run.from < 8 * reach) return { found: false, why: 'tone-broken' };
  let { from, to } = run;
  good.fill(0, 0, from);
  good.fill(0, to);

  const phase = workArray(length);
  unwrap(re, im, good, from, to, phase);
  if (markClicks({ amplitude, phase, good, from, to, usualAmplitude }, reach)) unwrap(re, im, good, from, to, phase);
  ({ from, to } = withoutBlindEnds(good, from, to, 4 * reach));
  let goodCount = 0;
  for (let n = from; n < to; n++) goodCount += good[n];
  if (goodCount < (to - from) / 3) return { found: false, why: 'tone-in-clicks' };
  return { found: true, from, to, good, goodCount, phase, usualAmplitude };
}

/** Centre of the 1 dB wide window that holds most samples. */
function commonLevel(amplitude: Float64Array): number {
  const stride = Math.max(1, Math.floor(amplitude.length / 8000));
  const sorted = workArray(Math.ceil(amplitude.length / stride));
  for (let i = 0; i < sorted.length; i++) sorted[i] = amplitude[i * stride];
  sorted.sort();
  const width = 10 ** (1 / 20);
  let best = 0;
  let most = 0;
  let end = 0;
  // the lowest part holds gaps and fades: exact zeros would make a window of no width
  for (let start = 0; start < sorted.length; start++) {
    if (sorted[start] <= 0) continue;
    while (end < sorted.length && sorted[end] <= sorted[start] * width) end++;
    if (end - start > most) {
      most = end - start;
      best = start;
    }
  }
  return most === 0 ? 0 : sorted[best + (most >> 1)];
}

/** Grows every hole by `reach` samples on both sides. */
export function widenHoles(good: Uint8Array, reach: number): void {
  const length = good.length;
  let last = -Infinity;
  const holes: number[] = [];
  for (let n = 0; n < length; n++) {
    if (good[n] === 0) {
      if (n - last > 1) holes.push(n, n);
      holes[holes.length - 1] = n;
      last = n;
    }
  }
  for (let h = 0; h < holes.length; h += 2) good.fill(0, Math.max(0, holes[h] - reach), holes[h + 1] + reach + 1);
}

function longestRun(good: Uint8Array, longestHole: number): { from: number; to: number } {
  let best = { from: 0, to: 0 };
  let from = -1;
  let last = -1;
  for (let n = 0; n < good.length; n++) {
    if (good[n] === 0) continue;
    if (from < 0 || n - last > longestHole) from = n;
    last = n;
    if (last + 1 - from > best.to - best.from) best = { from, to: last + 1 };
  }
  return best;
}

/**
 * A click in the outermost samples has no neighbours on one side that could show it: of a stretch that can spare them,
 * they are left out.
 */
function withoutBlindEnds(good: Uint8Array, from: number, to: number, blind: number): Run {
  if (to - from < SPARES_ITS_ENDS * blind) return { from, to };
  good.fill(0, from, from + blind);
  good.fill(0, to - blind, to);
  let [first, last] = [from + blind, to - blind];
  while (first < last && good[first] === 0) first++;
  while (last > first && good[last - 1] === 0) last--;
  return { from: first, to: last };
}

interface Run {
  readonly from: number;
  readonly to: number;
}

/** Runs of good samples in [from, to). */
function runsOf(good: Uint8Array, from: number, to: number): Run[] {
  const runs: Run[] = [];
  let start = -1;
  for (let n = from; n <= to; n++) {
    const isGood = n < to && good[n] === 1;
    if (isGood && start < 0) start = n;
    if (!isGood && start >= 0) {
      runs.push({ from: start, to: n });
      start = -1;
    }
  }
  return runs;
}

/** samples on either side of a hole that its slope is taken from */
const SLOPE_SAMPLES = 48;

/** The phase within one run, step by step. */
function followRun(re: Float64Array, im: Float64Array, { from, to }: Run, phase: Float64Array): void {
  phase[from] = Math.atan2(im[from], re[from]);
  for (let n = from + 1; n < to; n++) {
    const step = Math.atan2(re[n - 1] * im[n] - im[n - 1] * re[n], re[n - 1] * re[n] + im[n - 1] * im[n]);
    phase[n] = phase[n - 1] + step;
  }
}

/** Slope at the edge of a run, from a parabola through the means of three thirds of SLOPE_SAMPLES samples, inwards. */
function edgeSlope(phase: Float64Array, edge: number, inwards: 1 | -1, room: number): number | null {
  const third = Math.floor(Math.min(SLOPE_SAMPLES, room) / 3);
  if (third < 3) return null;
  const mean = (part: number): number => {
    let sum = 0;
    for (let k = 0; k < third; k++) sum += phase[edge + inwards * (part * third + k)];
    return sum / third;
  };
  const x = [0, 1, 2].map((part) => part * third + (third - 1) / 2);
  const d = 2 * third * third;
  return (
    inwards *
    ((-(x[1] + x[2]) * mean(0)) / d + ((x[0] + x[2]) * mean(1)) / (third * third) - ((x[0] + x[1]) * mean(2)) / d)
  );
}

/**
 * Follows the phase over good samples. Across a hole it expects the mean of the slopes on both sides to have gone on, which a
 * steady change of speed cannot mislead, and lays a cubic from side to side.
 */
function unwrap(
  re: Float64Array,
  im: Float64Array,
  good: Uint8Array,
  from: number,
  to: number,
  phase: Float64Array,
): void {
  const turn = 2 * Math.PI;
  const runs = runsOf(good, from, to);
  for (const run of runs) {
    followRun(re, im, run, phase);
  }
  let known = 0;
  for (let r = 1; r < runs.length; r++) {
    const [before, after] = [runs[r - 1], runs[r]];
    const [last, next] = [before.to - 1, after.from];
    const s0 = edgeSlope(phase, last, -1, before.to - before.from) ?? known;
    const s1 = edgeSlope(phase, next, 1, after.to - after.from) ?? s0;
    known = s1;
    const expected = phase[last] + ((s0 + s1) / 2) * (next - last);
    const shift = turn * Math.round((expected - phase[next]) / turn);
    for (let n = next; n < after.to; n++) phase[n] += shift;
    const width = next - last;
    const rise = phase[next] - phase[last];
    for (let n = last + 1; n < next; n++) {
      const u = (n - last) / width;
      phase[n] =
        phase[last] + rise * u * u * (3 - 2 * u) + s0 * width * u * (1 - u) ** 2 - s1 * width * u * u * (1 - u);
    }
  }
}
