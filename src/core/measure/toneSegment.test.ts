/** One stretch of a tone at its baseband, written down by hand: ratio, level, and the course of its frequency. */
import { describe, expect, it } from 'vitest';
import { coherentRatio } from '../signal/coherentRatio.ts';
import type { Baseband } from '../signal/toneMixer.ts';
import { trackTone } from '../signal/trackedTone.ts';
import { uncertaintyOfMean } from '../signal/uncertaintyOfMean.ts';
import type { Complex } from '../units/complex.ts';
import { type Driven, readSegment, type ToneSegment } from './toneSegment.ts';

const RATE_HZ = 1000;
const MIX_HZ = 1000;
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
interface Made {
  readonly lengthS?: number;
  readonly left?: Complex;
  readonly right?: Complex;
  /** rad against the mixing frequency */
  readonly phase?: (t: number) => number;
  /** of both channels' tone */
  readonly size?: (t: number) => number;
  readonly noise?: number;
}
/** Both channels as complex numbers times one tone. */
function baseband({
  lengthS = 3,
  left = { re: 1, im: 0 },
  right = { re: 0, im: 0 },
  phase = (t) => 2 * Math.PI * 3 * t,
  size = () => 1,
  noise = 0,
}: Made): Baseband {
  const length = Math.round(lengthS * RATE_HZ);
  const next = chance(9);
  const of = ({ re, im }: Complex) => {
    const series = { re: new Float64Array(length), im: new Float64Array(length) };
    for (let n = 0; n < length; n++) {
      const t = n / RATE_HZ;
      const [c, s] = [size(t) * Math.cos(phase(t)), size(t) * Math.sin(phase(t))];
      series.re[n] = re * c - im * s + noise * next();
      series.im[n] = re * s + im * c + noise * next();
    }
    return series;
  };
  const [l, r] = [of(left), of(right)];
  return {
    rateHz: RATE_HZ,
    mixHz: MIX_HZ,
    startS: 7,
    length,
    leftRe: l.re,
    leftIm: l.im,
    rightRe: r.re,
    rightIm: r.im,
  };
}
function read(made: Made, driven: Driven): ToneSegment {
  const reading = readSegment(baseband(made), driven);
  if (!reading.found) throw new Error('no tone');
  return reading;
}
const over = (a: Complex, b: Complex): Complex => {
  const s = b.re ** 2 + b.im ** 2;
  return { re: (a.re * b.re + a.im * b.im) / s, im: (a.im * b.re - a.re * b.im) / s };
};

describe('the ratio of the channels', () => {
  const [own, leak]: Complex[] = [
    { re: 0.3, im: 0.1 },
    { re: -0.01, im: 0.02 },
  ];

  it('is undriven over driven', () => {
    const { re, im } = over(leak, own);
    for (const driven of ['left', 'right'] as const) {
      const made = driven === 'left' ? { left: own, right: leak } : { left: leak, right: own };
      const { ratio, driven: told } = read({ ...made, noise: 1e-5 }, driven);
      expect(told).toBe(driven);
      expect(ratio.re).toBeCloseTo(re, 5);
      expect(ratio.im).toBeCloseTo(im, 5);
      // as of the driven channel's own phase
      const z = baseband({ ...made, noise: 1e-5 });
      const [d, y] = [
        { re: z.leftRe, im: z.leftIm },
        { re: z.rightRe, im: z.rightIm },
      ];
      const pair = driven === 'left' ? [y, d] : [d, y];
      const tone = trackTone(pair[1].re, pair[1].im, RATE_HZ);
      if (!tone.found) throw new Error('no tone');
      const plain = coherentRatio(pair[0], pair[1], tone.good, tone.from, tone.to, RATE_HZ, MIX_HZ);
      const { varRe, varIm, degreesOfFreedom } = plain;
      expect(ratio).toEqual({ re: plain.re, im: plain.im, varRe, varIm, degreesOfFreedom });
    }
  });

  it.each([
    ['in phase', { re: 0.28, im: 0.05 }],
    ['in antiphase', { re: -0.28, im: 0.05 }],
    ['a quarter turn apart', { re: 0.02, im: -0.31 }],
  ])('of both walls is left over right, %s', (_, right) => {
    const { ratio, logLevel, speed } = read({ left: own, right, noise: 1e-4 }, 'both');
    const q = over(own, right);
    expect(ratio.re).toBeCloseTo(q.re, 3);
    expect(ratio.im).toBeCloseTo(q.im, 3);
    // the mean of both, turned onto one another
    expect(Math.exp(logLevel.value)).toBeCloseTo((Math.hypot(own.re, own.im) + Math.hypot(right.re, right.im)) / 2, 4);
    expect(speed.meanHz).toBeCloseTo(1003, 3);
  });

  it('of both is as sure as what is left of left over right, sample by sample, and what the mains may hide', () => {
    const z = baseband({ left: own, right: { re: -0.2, im: 0.1 }, noise: 1e-3 });
    // the mains' harmonics 50 and 100 Hz to either side of the one under the tone
    for (let n = 0; n < z.length; n++)
      for (const hz of [-100, -50, 50, 100]) {
        z.leftRe[n] += 4e-3 * Math.cos((2 * Math.PI * hz * n) / RATE_HZ);
        z.leftIm[n] += 4e-3 * Math.sin((2 * Math.PI * hz * n) / RATE_HZ);
        z.rightRe[n] += 2e-3 * Math.cos((2 * Math.PI * hz * n) / RATE_HZ);
      }
    const reading = readSegment(z, 'both');
    if (!reading.found) throw new Error('no tone');
    // right turned onto left, half their sum
    const [l, r] = [
      { re: z.leftRe, im: z.leftIm },
      { re: z.rightRe, im: z.rightIm },
    ];
    let [cr, ci] = [0, 0];
    for (let n = 0; n < z.length; n++) {
      cr += l.re[n] * r.re[n] + l.im[n] * r.im[n];
      ci += l.im[n] * r.re[n] - l.re[n] * r.im[n];
    }
    const [u, v] = [cr / Math.hypot(cr, ci), ci / Math.hypot(cr, ci)];
    const d = {
      re: l.re.map((x, n) => (x + r.re[n] * u - r.im[n] * v) / 2),
      im: l.im.map((x, n) => (x + r.re[n] * v + r.im[n] * u) / 2),
    };
    const tone = trackTone(d.re, d.im, RATE_HZ);
    if (!tone.found) throw new Error('no tone');
    const { from, to, good } = tone;
    const [a, b] = [l, r].map((one) => coherentRatio(one, d, good, from, to, RATE_HZ, MIX_HZ));
    const q = over(a, b);
    expect(reading.ratio.re).toBeCloseTo(q.re, 12);
    expect(reading.ratio.im).toBeCloseTo(q.im, 12);
    const kept = Uint8Array.from(a.good, (g, n) => (n >= from && n < to ? g & b.good[n] : 0));
    const off = { re: new Float64Array(z.length), im: new Float64Array(z.length) };
    const mean = { re: 0, im: 0 };
    let count = 0;
    for (let n = from; n < to; n++) {
      if (kept[n] === 0) continue;
      const e = over(
        {
          re: a.remainderRe[n] - (q.re * b.remainderRe[n] - q.im * b.remainderIm[n]),
          im: a.remainderIm[n] - (q.re * b.remainderIm[n] + q.im * b.remainderRe[n]),
        },
        b,
      );
      [off.re[n], off.im[n]] = [e.re, e.im];
      mean.re += e.re;
      mean.im += e.im;
      count += 1;
    }
    for (let n = from; n < to; n++)
      if (kept[n] === 1) {
        off.re[n] -= mean.re / count;
        off.im[n] -= mean.im / count;
      }
    const plain = uncertaintyOfMean(off.re, off.im, kept, from, to, RATE_HZ);
    const hidden = (a.mainsUnderTone + (q.re ** 2 + q.im ** 2) * b.mainsUnderTone) / (b.re ** 2 + b.im ** 2);
    expect(reading.ratio.varRe / (plain.varRe + hidden)).toBeCloseTo(1, 9);
    expect(reading.ratio.varIm / (plain.varIm + hidden)).toBeCloseTo(1, 9);
    expect(reading.ratio.degreesOfFreedom).toBe(plain.degreesOfFreedom);
    expect(hidden).toBeGreaterThan(0);
  });

  it('with a dead channel is none of both; with nothing at all there is no tone', () => {
    expect(readSegment(baseband({ left: own, right: { re: 0, im: 0 } }), 'both')).toMatchObject({ found: false });
    const none = { left: { re: 0, im: 0 } };
    for (const driven of ['left', 'right', 'both'] as const)
      expect(readSegment(baseband(none), driven).found).toBe(false);
  });
});

describe('the level', () => {
  const level = (size: (t: number) => number) =>
    Math.exp(read({ left: { re: 0.3, im: 0 }, size }, 'left').logLevel.value);

  it('is that of the driven channel, its samples within 1 dB of the usual one alone', () => {
    expect(level(() => 1)).toBeCloseTo(0.3, 9);
    const part = (by: number) => level((t) => (t > 1 && t < 1.6 ? by : 1)) / 0.3;
    // 0.9 dB counts, 1.1 dB does not
    expect(part(10 ** (0.9 / 20))).toBeGreaterThan(1.015);
    expect(part(10 ** (-0.9 / 20))).toBeLessThan(0.985);
    expect(part(10 ** (1.2 / 20))).toBeCloseTo(1, 3);
    expect(part(10 ** (-1.2 / 20))).toBeCloseTo(1, 3);
  });

  it('is as sure as its relative scatter', () => {
    const made = { left: { re: 0.3, im: 0 }, noise: 3e-3 };
    const { logLevel } = read(made, 'left');
    const z = baseband(made);
    const tone = trackTone(z.leftRe, z.leftIm, RATE_HZ);
    if (!tone.found) throw new Error('no tone');
    const { from, to, good } = tone;
    const amplitude = z.leftRe.map((re, n) => Math.hypot(re, z.leftIm[n]));
    const steady = good.map((g, n) => (n >= from && n < to ? g : 0));
    const count = steady.reduce((a, b) => a + b, 0);
    const mean = amplitude.reduce((s, a, n) => s + a * steady[n], 0) / count;
    const off = amplitude.map((a, n) => (steady[n] === 1 ? a / mean - 1 : 0));
    const plain = uncertaintyOfMean(off, new Float64Array(z.length), steady, from, to, RATE_HZ);
    expect(logLevel.value).toBeCloseTo(Math.log(mean), 12);
    expect(logLevel.variance / plain.varRe).toBeCloseTo(1, 9);
    expect(logLevel.degreesOfFreedom).toBe(plain.degreesOfFreedom);
  });
});

describe('the course of the frequency', () => {
  const swing = (t: number): number => 2 * Math.PI * 3 * t + 0.5 * Math.sin(2 * Math.PI * 1.5 * t);

  it('is the deviation from its mean, at half samples, relative', () => {
    const { speed, startS, endS, usedS } = read({ phase: swing }, 'left');
    const count = speed.deviation.length;
    const from = Math.round((startS - 7) * RATE_HZ);
    const to = Math.round((endS - 7) * RATE_HZ);
    expect(count).toBe(to - from - 1);
    expect(usedS).toBeCloseTo(endS - startS, 9);
    expect(speed.rateHz).toBe(RATE_HZ);
    expect(speed.startS).toBeCloseTo(startS + 0.5 / RATE_HZ, 12);
    expect(speed.goodShare).toBe(1);
    const slope = (swing((to - 1) / RATE_HZ) - swing(from / RATE_HZ)) / count;
    const meanHz = MIX_HZ + (slope * RATE_HZ) / (2 * Math.PI);
    expect(speed.meanHz).toBeCloseTo(meanHz, 9);
    for (let n = 0; n < count; n += 97) {
      const step = swing((from + n + 1) / RATE_HZ) - swing((from + n) / RATE_HZ);
      expect(speed.deviation[n]).toBeCloseTo(((step - slope) * RATE_HZ) / (2 * Math.PI * meanHz), 9);
    }
    expect(speed.level.every((v) => Math.abs(v) < 1e-9)).toBe(true);
  });

  it('its level is relative to its mean, and straight over a hole', () => {
    const size = (t: number): number => (t > 1.5 && t < 1.55 ? 0 : 1 + 0.1 * (t - 1.5));
    const { speed, usedS, startS, endS } = read({ size }, 'left');
    const from = Math.round((startS - 7) * RATE_HZ);
    const mean =
      Array.from({ length: speed.level.length }, (_, n) => 1 + 0.1 * ((from + n) / RATE_HZ - 1.5)).reduce(
        (a, b) => a + b,
        0,
      ) / speed.level.length;
    // straight through the hole, which is as straight as the course beside it
    for (let n = 0; n < speed.level.length; n++)
      expect(speed.level[n]).toBeCloseTo((1 + 0.1 * ((from + n) / RATE_HZ - 1.5)) / mean - 1, 6);
    expect(usedS).toBeLessThan(endS - startS - 0.05);
    expect(speed.goodShare).toBeCloseTo(usedS / (endS - startS), 9);
    expect(speed.deviation.every((v) => Math.abs(v) < 1e-6)).toBe(true);
  });

  it('begins and ends where the tone does', () => {
    const size = (t: number): number => (t > 0.5 && t < 2.4 ? 1 : 0);
    const { startS, endS } = read({ size }, 'left');
    expect(startS).toBeGreaterThan(7.5);
    expect(startS).toBeLessThan(7.6);
    expect(endS).toBeLessThan(9.4);
    expect(endS).toBeGreaterThan(9.3);
  });
});

it('a low tone is narrowed first: its harmonic is not in it', () => {
  const z = baseband({ phase: () => 0 });
  const low: Baseband = { ...z, mixHz: 300 };
  for (let n = 0; n < z.length; n++) low.leftRe[n] += 0.2 * Math.cos((2 * Math.PI * 300 * n) / RATE_HZ);
  const reading = readSegment(low, 'left');
  if (!reading.found) throw new Error('no tone');
  expect(Math.max(...reading.speed.level.map(Math.abs))).toBeLessThan(1e-3);
  expect(reading.startS).toBeGreaterThan(7);
});
