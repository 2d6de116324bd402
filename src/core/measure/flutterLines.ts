/**
 * The lines that stand out of a speed trace's spectrum: what turns or shakes at one frequency.
 *
 *   X(f) Hann transform of the deviation;  line where |X|² > 16 × the usual power about it;  peak = 2 |X| / Σw · u/sin u,  u = πf/fs
 *
 * u/sin u puts back what the first difference of the phase took off. Uncertainty: the power about the line, and the neighbours' skirts
 * are in it.
 *
 * @checked flutterLines.test.ts; test/loops/speedStrip.test.ts
 */

import { median } from '../signal/robust.ts';
import { sharedFft, transformSize } from '../signal/sharedFft.ts';
import type { Lent, Steps } from '../signal/steps.ts';
import { hannPeriodic } from '../signal/windows.ts';
import { LongLoan, workArray } from '../signal/workArrays.ts';
import type { SpeedTrace } from './toneSegment.ts';

export interface FlutterLine {
  readonly hz: number;
  /** Hz, standard */
  readonly hzSpread: number;
  /** zero to peak, ratio, and its standard uncertainty */
  readonly peak: number;
  readonly spread: number;
}

const FROM_HZ = 0.25;
const TO_HZ = 200;
/** a noise bin passes this many times its mean in one of nine million */
const OVER = 16;
/** an exponential's median over its mean */
const MEDIAN_SHARE = Math.LN2;
/** bins of one trace's length that a line and its skirts take */
const SKIRT = 4;
const MOST = 8;
/** ratio; a smaller line is a tenth of the least flutter that any deck's sheet claims, and no bench looks for its cause */
const LEAST_PEAK = 1e-5;
/** bins that are looked at in one step */
const BINS_A_STEP = 4096;
/** share by which the parabola may miss the top between two points, half a bin of the window apart */
const TOP_SHARE = 0.002;

/** Strongest first, at most eight; in steps of some 10 ms for two minutes of a tone. @param trace at least 64 samples */
export function* flutterLinesInSteps({ deviation, rateHz }: SpeedTrace, lent: Lent): Steps<FlutterLine[]> {
  const { length } = deviation;
  if (!(length >= 64)) throw new RangeError(`deviation holds ${length} samples, at least 64 needed`);
  const { power, sum, size } = yield* hannPower(deviation, lent);
  yield;
  const bounds = lent(() => {
    const asFloor = workArray(power.length);
    asBounds(power, asFloor);
    return new CountedBins(asFloor, workArray(power.length));
  });
  yield;
  const perBin = size / length;
  const from = Math.max(Math.ceil(2.5 * perBin), Math.ceil((FROM_HZ * size) / rateHz));
  const to = Math.min(power.length - 2, Math.floor((Math.min(TO_HZ, 0.4 * rateHz) * size) / rateHz));
  const found: FlutterLine[] = [];
  for (let first = from; first <= to; ) {
    // up to the next bin where a step ends
    const next = Math.min(to + 1, (Math.floor(first / BINS_A_STEP) + 1) * BINS_A_STEP);
    if (first % BINS_A_STEP === 0) yield;
    for (const { k, floor } of peaksAmong(power, bounds, perBin, first, next)) {
      found.push(lineAt(k, floor, { power, sum, size, rateHz, length }));
    }
    first = next;
  }
  found.sort((x, y) => y.peak - x.peak);
  // side lobes of a stronger line are none of their own
  const apart = (SKIRT * rateHz) / length;
  const own = found.filter(
    (line, i) =>
      line.peak >= LEAST_PEAK &&
      !found
        .slice(0, i)
        .some((other) => Math.abs(other.hz - line.hz) < apart || line.peak < sideLobe(other, line.hz, rateHz / length)),
  );
  return own.slice(0, MOST);
}

/** What a peak has to pass where each bin's power is the median of those about it. */
function asBounds(power: Float64Array, bounds: Float64Array): void {
  for (let k = 0; k < power.length; k++) bounds[k] = OVER * floorOver(power[k]);
}

interface Peak {
  readonly k: number;
  /** mean power about it */
  readonly floor: number;
}

/** Bins from `first` up to `next` that stand out of those about them. */
function peaksAmong(power: Float64Array, bounds: CountedBins, perBin: number, first: number, next: number): Peak[] {
  const peaks: Peak[] = [];
  for (let k = first; k < next; k++) {
    if (!(power[k] > power[k - 1] && power[k] >= power[k + 1])) continue;
    const about = neighbours(power.length, k, perBin);
    if (isUsual(bounds, power[k], about)) continue;
    const floor = floorOver(median(valuesOf(power, about)));
    if (power[k] > OVER * floor) peaks.push({ k, floor });
  }
  return peaks;
}

interface OfTrace {
  readonly power: Float64Array;
  /** of the window's samples */
  readonly sum: number;
  /** of the transform, and of the trace */
  readonly size: number;
  readonly length: number;
  readonly rateHz: number;
}

/** The line whose highest bin is k: top of the parabola through three points of the logarithm. */
function lineAt(k: number, floor: number, { power, sum, size, length, rateHz }: OfTrace): FlutterLine {
  const [a, b, c] = [k - 1, k, k + 1].map((i) => Math.log(Math.max(power[i], 1e-300)));
  const bend = a - 2 * b + c;
  const off = bend < 0 ? (0.5 * (a - c)) / bend : 0;
  const hz = ((k + off) * rateHz) / size;
  const u = (Math.PI * hz) / rateHz;
  const scale = (2 / sum) * (u / Math.sin(u));
  const top = Math.exp((b - ((a - c) * off) / 4) / 2);
  return {
    hz,
    hzSpread: ((0.55 * rateHz) / length) * Math.sqrt(floor / power[k]),
    peak: scale * top,
    spread: scale * Math.hypot(Math.sqrt(floor / 2), TOP_SHARE * top),
  };
}

/** Power at each bin of the trace under a Hann window, whose samples add up to `sum`. Lent. */
function* hannPower(
  deviation: Float64Array,
  lent: Lent,
): Steps<{ readonly power: Float64Array; readonly sum: number; readonly size: number }> {
  const { length } = deviation;
  const size = transformSize(2 * length);
  const loan = new LongLoan();
  const [re, im] = loan.during(() => [workArray(size), workArray(size)]);
  const window = hannPeriodic(length);
  let sum = 0;
  let mean = 0;
  for (let n = 0; n < length; n++) mean += deviation[n] / length;
  for (let n = 0; n < length; n++) {
    re[n] = (deviation[n] - mean) * window[n];
    sum += window[n];
  }
  yield;
  sharedFft(size).forward(re, im);
  yield;
  const power = lent(() => workArray(size / 2));
  for (let k = 0; k < power.length; k++) power[k] = re[k] * re[k] + im[k] * im[k];
  loan.end();
  return { power, sum, size };
}

/** What a Hann window's side lobes of a line reach so many bins away, with a wide margin: they fall as the cube. */
const sideLobe = (line: FlutterLine, hz: number, binHz: number): number =>
  line.peak * (2.5 / Math.max(1, Math.abs(hz - line.hz) / binHz)) ** 3 * 0.3;

/** Bins about a peak, its own skirts left out: `from` up to `leftTo`, `rightFrom` up to `to`, all included. */
interface Neighbours {
  readonly from: number;
  readonly leftTo: number;
  readonly rightFrom: number;
  readonly to: number;
}

/** What is no line within 12 bins, or 15 %, to either side. */
function neighbours(bins: number, k: number, perBin: number): Neighbours {
  const skirt = Math.ceil(SKIRT * perBin * 0.6);
  const reach = skirt + Math.max(Math.ceil(12 * perBin), Math.round(0.15 * k));
  return {
    from: Math.max(1, k - reach),
    leftTo: k - skirt - 1,
    rightFrom: k + skirt + 1,
    to: Math.min(bins - 1, k + reach),
  };
}

/** Mean power, by its median. */
const floorOver = (middle: number): number => middle / MEDIAN_SHARE;

/**
 * More than half of the neighbours alone put the floor so high that the peak is none: told without their median, which would
 * take most of the time that a long trace needs.
 *
 * @param bounds what a peak would have to pass if this bin's power were the median
 */
function isUsual(bounds: CountedBins, peak: number, { from, leftTo, rightFrom, to }: Neighbours): boolean {
  const half = Math.floor((Math.max(0, leftTo - from + 1) + Math.max(0, to - rightFrom + 1)) / 2);
  const left = bounds.atLeast(peak, from, leftTo);
  return left > half || left + bounds.atLeast(peak, rightFrom, to) > half;
}

/** Bins to a block that is sorted, to be counted by halving. */
const BLOCK = 64;

/** How many of some neighbouring values reach a bound, at a sixth of a look each. */
class CountedBins {
  private readonly values: Float64Array;
  private readonly sorted: Float64Array;

  /** @param sorted as long as `values`, overwritten */
  constructor(values: Float64Array, sorted: Float64Array) {
    this.values = values;
    this.sorted = sorted;
    sorted.set(values);
    for (let at = 0; at < sorted.length; at += BLOCK) sorted.subarray(at, at + BLOCK).sort();
  }

  /** Of those from `first` to `last`, both included. */
  atLeast(bound: number, first: number, last: number): number {
    let count = 0;
    for (let i = first; i <= last; ) {
      if (i % BLOCK === 0 && i + BLOCK - 1 <= last) {
        count += this.inBlock(bound, i);
        i += BLOCK;
      } else {
        if (this.values[i] >= bound) count += 1;
        i += 1;
      }
    }
    return count;
  }

  private inBlock(bound: number, at: number): number {
    let [low, high] = [at, at + BLOCK];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.sorted[middle] >= bound) high = middle;
      else low = middle + 1;
    }
    return at + BLOCK - low;
  }
}

function valuesOf(power: Float64Array, { from, leftTo, rightFrom, to }: Neighbours): number[] {
  return [...power.subarray(from, Math.max(from, leftTo + 1)), ...power.subarray(Math.min(rightFrom, to + 1), to + 1)];
}
