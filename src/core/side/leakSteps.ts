/**
 * A headshell that is turned while a one-sided tone plays: what leaks into the other channel is another from then on, and a reading of the
 * whole band would be neither of the two.
 *
 *   ρ = quiet · conj(loud) / |loud|², its median over one turn of the record (what swings once a turn is alike in both)
 *   a step: |ρ̃(last turn) − ρ̃(the turn before, half a second apart)| over 0.006 and over six times what single tenths of a second scatter,
 *   once the two halves of the last turn agree to a third of it
 *
 * 0.006 is −44 dB, a turn by about a third of a degree; the figures are of the house. A turn in the first four seconds of a band or its last two is not told.
 *
 * @checked leakSteps.test.ts
 */
import { median } from '../signal/robust.ts';

/** A tone in one channel over one window. */
export interface ToneReading {
  readonly amplitude: number;
  /** rad */
  readonly phase: number;
}

export interface LeakStep {
  /** s, from where on the leak stands still again */
  readonly fromS: number;
  /** |Δρ| */
  readonly size: number;
}

const POINT_S = 0.1;
const APART_S = 0.5;
const LEAST_STEP = 0.006;
const TIMES_SCATTER = 6;
/** of the step, that the halves of a turn may differ by */
const MOST_APART = 0.35;
/** of the last turn that surely lies after a step whose halves agree, also where the hand took its time */
const AFTER = 0.5;
/** the loud channel over the other: less is no one-sided tone */
const LEAST_RATIO = 4;

interface Point {
  readonly re: number;
  readonly im: number;
}

export class LeakSteps {
  /** points of a turn */
  readonly #turn: number;
  readonly #apart = Math.round(APART_S / POINT_S);
  #points: Point[] = [];
  #sum = { re: 0, im: 0, n: 0 };
  readonly #windows: number;

  /** @param turnS s of one turn of the record @param windowS of the readings that are heard */
  constructor(turnS: number, windowS: number) {
    this.#turn = Math.round(turnS / POINT_S);
    this.#windows = Math.round(POINT_S / windowS);
  }

  /** Another tone plays, or none. */
  clear(): void {
    this.#points = [];
    this.#sum = { re: 0, im: 0, n: 0 };
  }

  /** The next window. @param endS its end @returns the step that it makes certain */
  hear(left: ToneReading, right: ToneReading, endS: number): LeakStep | null {
    const isLeft = left.amplitude >= right.amplitude;
    const [loud, quiet] = isLeft ? [left, right] : [right, left];
    if (!(loud.amplitude > LEAST_RATIO * quiet.amplitude)) {
      this.clear();
      return null;
    }
    const size = quiet.amplitude / loud.amplitude;
    const sum = this.#sum;
    sum.re += size * Math.cos(quiet.phase - loud.phase);
    sum.im += size * Math.sin(quiet.phase - loud.phase);
    sum.n += 1;
    if (sum.n < this.#windows) return null;
    this.#points.push({ re: sum.re / sum.n, im: sum.im / sum.n });
    this.#sum = { re: 0, im: 0, n: 0 };
    const whole = 2 * this.#turn + this.#apart;
    if (this.#points.length < whole) return null;
    if (this.#points.length > whole) this.#points.shift();
    return this.#judge(endS);
  }

  #judge(endS: number): LeakStep | null {
    const points = this.#points;
    const before = points.slice(0, this.#turn);
    const last = points.slice(-this.#turn);
    const half = Math.floor(this.#turn / 2);
    const [was, is] = [middleOf(before), middleOf(last)];
    const size = apart(was, is);
    const scatter = Math.min(scatterOf(before, was), scatterOf(last, is));
    if (!(size > LEAST_STEP && size > TIMES_SCATTER * scatter)) return null;
    if (apart(middleOf(last.slice(0, half)), middleOf(last.slice(half))) > MOST_APART * size) return null;
    const kept = Math.floor(AFTER * this.#turn);
    this.#points = points.slice(-kept);
    return { fromS: endS - kept * POINT_S, size };
  }
}

const middleOf = (points: readonly Point[]): Point => ({
  re: median(points.map(({ re }) => re)),
  im: median(points.map(({ im }) => im)),
});

const apart = (a: Point, b: Point): number => Math.hypot(a.re - b.re, a.im - b.im);

/** of the median: what single points scatter, 1.4826 from the middle of their distances, over √n */
const scatterOf = (points: readonly Point[], middle: Point): number =>
  (1.4826 * median(points.map((one) => apart(one, middle)))) / Math.sqrt(points.length);
