/** Spectra of a tone's wavering and of both channels at once, against plain sums over every segment. */
import { beforeAll, describe, expect, it } from 'vitest';
import { atOnce } from '../signal/steps.ts';
import type { Baseband } from '../signal/toneMixer.ts';
import { type SwaySpectra, swayMixHz, swaySpectraInSteps } from './swaySpectra.ts';
import type { SpeedTrace } from './toneSegment.ts';

const SIZE = 4096;
const RATE_HZ = 667;
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
const series = (seed: number, length: number): Float64Array => {
  const next = chance(seed);
  return Float64Array.from({ length }, next);
};
const trace = (length: number, startS: number): SpeedTrace => ({
  rateHz: RATE_HZ,
  startS,
  meanHz: 3150,
  deviation: series(1, length),
  level: new Float64Array(length),
  goodShare: 1,
});
const low = (length: number): Baseband => ({
  rateHz: RATE_HZ,
  mixHz: swayMixHz(RATE_HZ),
  startS: 5,
  length,
  leftRe: series(2, length),
  leftIm: series(3, length),
  rightRe: series(4, length),
  rightIm: series(5, length),
});

it('is mixed by 20 Hz or a little more: an even number of bins', () => {
  for (const rateHz of [666.7, 1000, 1041.7, 918.75]) {
    const bins = (swayMixHz(rateHz) * SIZE) / rateHz;
    expect(bins).toBeCloseTo(2 * Math.round(bins / 2), 9);
    expect(swayMixHz(rateHz)).toBeGreaterThanOrEqual(20);
    expect(swayMixHz(rateHz)).toBeLessThan(20 + (2.01 * rateHz) / SIZE);
  }
});

describe('the spectra', () => {
  const segments = 7;
  const length = ((segments + 1) * SIZE) / 2;
  // samples of the channels before the trace's first, whose values lie half a sample later
  const offset = 40;
  const wavering = trace(length, 5 + (offset + 0.5) / RATE_HZ);
  const both = low(length + offset);
  let told: SwaySpectra;
  beforeAll(() => {
    told = atOnce(swaySpectraInSteps(wavering, both)) as SwaySpectra;
  });
  const binHz = RATE_HZ / SIZE;
  const window = Array.from({ length: SIZE }, (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / SIZE));
  const squares = window.reduce((s, w) => s + w * w, 0);

  it('go from 1.5 to 45 Hz; Hann segments that overlap by half are worth 0.95 each', () => {
    expect(told.binHz).toBeCloseTo(binHz, 12);
    expect(told.averages).toBeCloseTo(0.95 * segments, 9);
    expect(told.hz[0]).toBeGreaterThanOrEqual(1.5);
    expect(told.hz[0] - binHz).toBeLessThan(1.5);
    expect(told.hz[told.hz.length - 1]).toBeLessThanOrEqual(45);
    expect(told.hz[told.hz.length - 1] + binHz).toBeGreaterThan(45);
  });

  it.each([0, 1, 57, 190, 266])('are those of plain sums, bin %i', (i) => {
    const k = Math.round(told.hz[i] / binHz);
    const m = k - Math.round(both.mixHz / binHz);
    const dft = (re: Float64Array, im: Float64Array | null, from: number, bin: number) => {
      let [x, y] = [0, 0];
      for (let n = 0; n < SIZE; n++) {
        const angle = (-2 * Math.PI * bin * n) / SIZE;
        const [c, s] = [window[n] * Math.cos(angle), window[n] * Math.sin(angle)];
        const b = im === null ? 0 : im[from + n];
        x += re[from + n] * c - b * s;
        y += re[from + n] * s + b * c;
      }
      return { re: x, im: y };
    };
    const sum = { speed: 0, inPhase: 0, antiphase: 0, da: [0, 0], db: [0, 0], ab: [0, 0] };
    for (let s = 0; s < segments; s++) {
      const at = (s * SIZE) / 2;
      const d = dft(wavering.deviation, null, at, k);
      const l = dft(both.leftRe, both.leftIm, offset + at, m);
      const r = dft(both.rightRe, both.rightIm, offset + at, m);
      const a = { re: (l.re + r.re) / Math.SQRT2, im: (l.im + r.im) / Math.SQRT2 };
      const b = { re: (l.re - r.re) / Math.SQRT2, im: (l.im - r.im) / Math.SQRT2 };
      sum.speed += 2 * (d.re ** 2 + d.im ** 2);
      sum.inPhase += a.re ** 2 + a.im ** 2;
      sum.antiphase += b.re ** 2 + b.im ** 2;
      for (const [into, x, y] of [
        [sum.da, d, a],
        [sum.db, d, b],
        [sum.ab, a, b],
      ] as const) {
        into[0] += x.re * y.re + x.im * y.im;
        into[1] += x.im * y.re - x.re * y.im;
      }
    }
    const scale = 1 / (segments * RATE_HZ * squares);
    const near = (value: number) => expect.closeTo(scale * value, 9);
    expect([told.speed[i], told.inPhase[i], told.antiphase[i]]).toEqual([
      near(sum.speed),
      near(sum.inPhase),
      near(sum.antiphase),
    ]);
    for (const [of, [re, im]] of [
      [told.withInPhase, sum.da],
      [told.withAntiphase, sum.db],
      [told.between, sum.ab],
    ] as const)
      expect([of.re[i], of.im[i]]).toEqual([near(re), near(im)]);
  });

  it('come in a step for each eight segments', () => {
    const count = (of: number) => {
      const steps = swaySpectraInSteps(trace(((of + 1) * SIZE) / 2, 5.001), low(((of + 1) * SIZE) / 2 + 9));
      let n = 0;
      for (let step = steps.next(); step.done !== true; step = steps.next()) n += 1;
      return n;
    };
    expect([count(8), count(9), count(17)]).toEqual([0, 1, 2]);
  });
});

it('needs six segments of both, and channels that began first', () => {
  const length = (7 * SIZE) / 2;
  const told = (trace_: SpeedTrace, of: Baseband) => atOnce(swaySpectraInSteps(trace_, of)) !== null;
  expect(told(trace(length, 5.001), low(length + 9))).toBe(true);
  expect(told(trace(length - 1, 5.001), low(length + 9))).toBe(false);
  expect(told(trace(length + 9, 5.001), low(length - 1))).toBe(false);
  expect(told(trace(length + 9, 5.001 + 2 / RATE_HZ), low(length))).toBe(false);
  expect(told(trace(length, 5 - 1 / RATE_HZ), low(length + 9))).toBe(false);
});
