import { describe, expect, it } from 'vitest';
import { coherentRatio, coherentRatioAlone } from '../signal/coherentRatio.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { narrowed } from '../signal/narrowed.ts';
import { ToneMixer } from '../signal/toneMixer.ts';
import { trackTone } from '../signal/trackedTone.ts';
import { onLoan } from '../signal/workArrays.ts';
import { type ChannelHarmonics, HarmonicEstimator } from './harmonics.ts';
import type { Driven } from './toneSegment.ts';

const RATE = 8000;
const HZ = 400;
interface Wave {
  readonly size: number;
  readonly phase: number;
  /** order, ratio and phase of each harmonic */
  readonly harmonics: readonly (readonly [order: number, ratio: number, phase: number])[];
}
const nothing: Wave = { size: 0, phase: 0, harmonics: [] };

function heard(
  driven: Driven,
  left: Wave,
  right: Wave,
  { seconds = 2, block = 5000, later = 1, hz = HZ, rate = RATE } = {},
): {
  found: ChannelHarmonics[];
  estimator: HarmonicEstimator;
} {
  const frames = Math.round(seconds * rate);
  const of = ({ size, phase, harmonics }: Wave): Float64Array =>
    Float64Array.from({ length: frames }, (_, n) => {
      const t = n / rate;
      const angle = 2 * Math.PI * hz * (t + 3e-4 * Math.sin(4 * t));
      // what comes after five seconds is another sound
      const by = t > 5 ? later : 1;
      return (
        size *
        harmonics.reduce((v, [k, ratio, at]) => v + by * ratio * Math.cos(k * angle + at), Math.cos(angle + phase))
      );
    });
  const [l, r] = [of(left), of(right)];
  const estimator = new HarmonicEstimator(rate, hz, driven);
  const tone = new ToneMixer(rate, hz);
  for (let from = 0; from < frames; from += block) {
    const to = Math.min(frames, from + block);
    const [bl, br] = [l.subarray(from, to), r.subarray(from, to)];
    estimator.push({ left: bl, right: br, frames: to - from, startFrame: from });
    tone.push(bl, br, 0, to - from, from);
  }
  return { found: estimator.result(tone), estimator };
}
const one: Wave = {
  size: 0.3,
  phase: 0.8,
  harmonics: [
    [2, 0.02, 0.5],
    [3, 0.01, -2],
    [4, 0.004, 1],
    [5, 0.002, 2.5],
  ],
};
const other: Wave = {
  size: 0.1,
  phase: -1.9,
  harmonics: [
    [2, 0.05, 1.2],
    [3, 0.002, 0.3],
  ],
};

function holds({ channel, orders }: ChannelHarmonics, name: string, wave: Wave): void {
  expect(channel).toBe(name);
  expect(orders.map(({ order }) => order)).toEqual([2, 3, 4, 5]);
  for (const { order, ratio, phasor, spread } of orders) {
    const [, size, at] = wave.harmonics.find(([k]) => k === order) ?? [order, 0, 0];
    expect(Math.abs(ratio - size)).toBeLessThan(3e-4);
    // against the fundamental's own phase
    expect(phasor.re).toBeCloseTo(size * Math.cos(at - order * wave.phase), 3);
    expect(phasor.im).toBeCloseTo(size * Math.sin(at - order * wave.phase), 3);
    expect(spread).toBeGreaterThanOrEqual(0);
    expect(spread).toBeLessThan(3e-4);
  }
}

describe('harmonics by channel', () => {
  it('of the wall that is driven alone, with their phases against the tone’s', () => {
    const left = heard('left', one, other).found;
    expect(left).toHaveLength(1);
    holds(left[0], 'left', one);
    const right = heard('right', one, other).found;
    expect(right).toHaveLength(1);
    holds(right[0], 'right', other);
  });

  it('of both where both are driven, each against its own tone', () => {
    const both = heard('both', one, other).found;
    expect(both).toHaveLength(2);
    holds(both[0], 'left', one);
    holds(both[1], 'right', other);
    const dead = heard('both', one, nothing).found;
    holds(dead[0], 'left', one);
    expect(dead[1]).toEqual({ channel: 'right', orders: [] });
  });

  it('do not depend on where the blocks are cut', () => {
    const [a, b] = [heard('left', one, other, { block: 777 }), heard('left', one, other, { block: 100_000 })];
    a.found[0].orders.forEach(({ ratio }, i) => {
      expect(ratio).toBeCloseTo(b.found[0].orders[i].ratio, 12);
    });
  });

  it('five seconds are looked at, then it is full', () => {
    const { found, estimator } = heard('left', one, nothing, { seconds: 7, later: 9 });
    holds(found[0], 'left', one);
    expect(estimator.isFull).toBe(true);
    expect(heard('left', one, nothing, { seconds: 4.99 }).estimator.isFull).toBe(false);
    expect(heard('left', one, nothing, { seconds: 5 }).estimator.isFull).toBe(true);
    estimator.end();
  });

  it('less than a second and a half says nothing', () => {
    expect(heard('left', one, nothing, { seconds: 1.7 }).found).toHaveLength(1);
    expect(heard('left', one, nothing, { seconds: 1.4 }).found).toEqual([]);
    expect(heard('left', nothing, nothing).found).toEqual([]);
  });

  it('orders end at 0.45 of the rate, and at 20 kHz', () => {
    const orders = (hz: number, rate: number): number[] =>
      heard('left', one, nothing, { hz, rate }).found.flatMap((of) => of.orders.map(({ order }) => order));
    expect(orders(899, 8000)).toEqual([2, 3, 4]);
    expect(orders(901, 8000)).toEqual([2, 3]);
    expect(orders(719, 8000)).toEqual([2, 3, 4, 5]);
    expect(orders(721, 8000)).toEqual([2, 3, 4]);
    expect(heard('left', one, nothing, { hz: 1801, rate: 8000 }).found).toEqual([]);
    expect(orders(6700, 96_000)).toEqual([2]);
    expect(() => new HarmonicEstimator(8000, 249, 'left')).toThrow('frequencyHz 249 must be at least 250');
    expect(() => new HarmonicEstimator(8000, 250, 'left')).not.toThrow();
  });
});

it('ratio and ± are those of the lock-in on each multiple of the tracked phase, noise’s own share taken off', () => {
  const draw = gaussian(8);
  const frames = 2 * RATE;
  const left = Float64Array.from({ length: frames }, (_, n) => {
    const angle = (2 * Math.PI * HZ * n) / RATE;
    return 0.3 * Math.cos(angle + 0.8) + 0.004 * Math.cos(2 * angle - 1) + 0.02 * draw();
  });
  const right = left.map(() => 0.02 * draw());
  const estimator = new HarmonicEstimator(RATE, HZ, 'left');
  const mixers = [1, 2, 3, 4, 5].map((order) => new ToneMixer(RATE, order * HZ));
  estimator.push({ left, right, frames, startFrame: 0 });
  for (const mixer of mixers) mixer.push(left, right, 0, frames, 0);
  const wanted = onLoan(() => {
    const first = narrowed(mixers[0].peek(), HZ);
    const tone = trackTone(first.leftRe, first.leftIm, first.rateHz);
    if (!tone.found) throw new Error('no tone');
    const { good, from, to, phase } = tone;
    const unit = (order: number) => ({
      re: phase.map((v) => Math.cos(order * v)),
      im: phase.map((v) => Math.sin(order * v)),
    });
    const own = coherentRatioAlone({ re: first.leftRe, im: first.leftIm }, unit(1), good, from, to, first.rateHz);
    const size = Math.hypot(own.re, own.im);
    return mixers.slice(1).map((mixer, i) => {
      const order = i + 2;
      const z = narrowed(mixer.peek(), HZ);
      const h = coherentRatio({ re: z.leftRe, im: z.leftIm }, unit(order), good, from, to, first.rateHz, order * HZ);
      const variance = (h.varRe + h.varIm) / 2;
      const angle = Math.atan2(h.im, h.re) - order * Math.atan2(own.im, own.re);
      const heard = Math.hypot(h.re, h.im);
      return {
        order,
        ratio: Math.sqrt(Math.max(0, heard ** 2 - 2 * variance)) / size,
        spread: Math.sqrt(variance) / size,
        phasor: { re: (heard * Math.cos(angle)) / size, im: (heard * Math.sin(angle)) / size },
      };
    });
  });
  const [{ orders }] = estimator.result(mixers[0]);
  expect(orders).toHaveLength(4);
  orders.forEach((of, i) => {
    expect(of.order).toBe(wanted[i].order);
    expect(of.ratio).toBeCloseTo(wanted[i].ratio, 9);
    expect(of.spread / wanted[i].spread).toBeCloseTo(1, 6);
    expect(of.phasor.re).toBeCloseTo(wanted[i].phasor.re, 9);
    expect(of.phasor.im).toBeCloseTo(wanted[i].phasor.im, 9);
  });
  // noise alone is nothing or next to it
  expect(orders.some(({ ratio }) => ratio === 0)).toBe(wanted.some(({ ratio }) => ratio === 0));
});
