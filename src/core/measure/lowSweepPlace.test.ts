import { describe, expect, it } from 'vitest';
import { ComplexFft } from '../signal/fft.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { median } from '../signal/robust.ts';
import type { LowRateSignal } from './lowRate.ts';
import { findLowSweep, lawAt, lockIn, type SweepCut, type SweepPlace } from './lowSweepPlace.ts';

const log: SweepCut = { fromHz: 30, toHz: 6, law: 'log', durationS: 8 };
const short: SweepCut = { ...log, durationS: 5 };
const linear: SweepCut = { fromHz: 5, toHz: 25, law: 'linear', durationS: 8 };

describe('the law of a sweep', () => {
  it.each([log, linear])('$law: begins and ends where it says, its rate and phase the frequency’s own', (cut) => {
    const place = { startS: 2, lengthS: 8 };
    expect(lawAt(cut, place, 2).hz).toBeCloseTo(cut.fromHz, 12);
    expect(lawAt(cut, place, 2).cycles).toBeCloseTo(0, 12);
    expect(lawAt(cut, place, 10).hz).toBeCloseTo(cut.toHz, 9);
    const middle = cut.law === 'log' ? Math.sqrt(cut.fromHz * cut.toHz) : (cut.fromHz + cut.toHz) / 2;
    expect(lawAt(cut, place, 6).hz).toBeCloseTo(middle, 9);
    for (const t of [1, 3, 7.5, 11]) {
      const d = 1e-4;
      const [before, at, after] = [t - d, t, t + d].map((v) => lawAt(cut, place, v));
      expect(at.hzPerS).toBeCloseTo((after.hz - before.hz) / (2 * d), 5);
      expect(at.hz).toBeCloseTo((after.cycles - before.cycles) / (2 * d), 5);
    }
  });
});

/** A sweep in both channels, hum and noise beside it. */
function signalOf(
  cut: SweepCut,
  place: SweepPlace,
  seconds: number,
  noise: number,
  hum = 0,
  rateHz = 120,
): LowRateSignal {
  const draw = gaussian(31);
  const count = Math.round(seconds * rateHz);
  const left = new Float64Array(count);
  const right = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    const t = n / rateHz;
    const inside = t >= place.startS && t <= place.startS + place.lengthS;
    const angle = 2 * Math.PI * lawAt(cut, place, t).cycles;
    left[n] = (inside ? Math.cos(angle) : 0) + noise * draw() + hum * Math.cos(2 * Math.PI * 12.3 * t);
    right[n] = (inside ? 0.7 * Math.sin(angle) : 0) + noise * draw();
  }
  return { rateHz, delayS: 0, left, right };
}

describe('lock-in on the law', () => {
  const place = { startS: 1, lengthS: 8 };
  const signal = signalOf(log, place, 10, 0.1);
  const plain = (atS: number, windowS: number, asideHz: number) => {
    const sums = { lr: 0, li: 0, rr: 0, ri: 0, w: 0 };
    signal.left.forEach((v, n) => {
      const t = n / signal.rateHz;
      const far = (t - atS) / windowS;
      if (Math.abs(far) > 0.5 + 1e-12) return;
      const w = Math.cos(Math.PI * far) ** 2;
      const angle = 2 * Math.PI * (lawAt(log, place, t).cycles + asideHz * (t - atS));
      sums.lr += 2 * w * v * Math.cos(angle);
      sums.li -= 2 * w * v * Math.sin(angle);
      sums.rr += 2 * w * signal.right[n] * Math.cos(angle);
      sums.ri -= 2 * w * signal.right[n] * Math.sin(angle);
      sums.w += w;
    });
    return {
      left: { re: sums.lr / sums.w, im: sums.li / sums.w },
      right: { re: sums.rr / sums.w, im: sums.ri / sums.w },
    };
  };

  it.each([
    [3, 1, 0],
    [5.013, 0.7, 4],
    [2, 2, -3],
  ])('at %f s under %f s, %f Hz beside it: both channels’ peaks, noise and all', (atS, windowS, asideHz) => {
    const of = lockIn(signal, log, place, atS, windowS, asideHz);
    const wanted = plain(atS, windowS, asideHz);
    for (const channel of ['left', 'right'] as const) {
      for (const part of ['re', 'im'] as const) expect(of?.[channel][part]).toBeCloseTo(wanted[channel][part], 9);
    }
    const { left, right } = wanted;
    expect(of?.power).toBeCloseTo(left.re ** 2 + left.im ** 2 + right.re ** 2 + right.im ** 2, 9);
  });

  it('a window that does not fit, or holds next to nothing, tells nothing', () => {
    const at = (atS: number, windowS: number): boolean => lockIn(signal, log, place, atS, windowS, 0) !== null;
    expect([at(0.5, 1), at(0.49, 1)]).toEqual([true, false]);
    // 1200 values: the last stands at 9.9917 s
    expect([at(9.49, 1), at(9.5, 1)]).toEqual([true, false]);
    expect([at(5, 8.1 / 120), at(5, 7.9 / 120)]).toEqual([true, false]);
  });
});

/** The search written out: log of what stands out of its neighbours along the law, then ever smaller steps uphill. */
function plain({ rateHz, left, right }: LowRateSignal, cut: SweepCut): SweepPlace | null {
  const length = Math.round(rateHz);
  const size = 2 ** Math.ceil(Math.log2(4 * length));
  const binHz = rateHz / size;
  const around = Math.round(4 / binHz);
  const bins = Math.min(size / 2, Math.ceil((1.3 * Math.max(cut.fromHz, cut.toHz) + 5) / binHz));
  const spectrum = (x: Float64Array, from: number): number[] => {
    const [re, im] = [new Float64Array(size), new Float64Array(size)];
    for (let k = 0; k < length; k++) re[k] = (0.5 - 0.5 * Math.cos((2 * Math.PI * k) / length)) * x[from + k];
    new ComplexFft(size).forward(re, im);
    return Array.from({ length: bins + around + 1 }, (_, k) => re[k] ** 2 + im[k] ** 2);
  };
  const rows: number[][] = [];
  for (let n = 0; Math.round(0.1 * n * rateHz) + length <= left.length; n++) {
    const from = Math.round(0.1 * n * rateHz);
    const [l, r] = [spectrum(left, from), spectrum(right, from)];
    const power = l.map((v, k) => v + r[k]);
    rows.push(
      power.slice(0, bins).map((v, k) => {
        const middle = median(power.slice(Math.max(1, k - around), k + around + 1));
        return middle > 0 ? Math.log(1 + Math.min(30, v / middle)) : 0;
      }),
    );
  }
  const seconds = left.length / rateHz;
  let best = { score: 0, mean: 0, startS: 0, lengthS: 0 };
  const { durationS } = cut;
  const [shortest, longest, step] =
    durationS === null ? [3, seconds / 0.6, 1.04] : [0.92 * durationS, 1.08 * durationS, 1.01];
  for (let lengthS = shortest; lengthS <= longest * 1.0001; lengthS *= step) {
    for (let startS = -0.4 * lengthS; startS < seconds - 0.6 * lengthS; startS += 0.1) {
      const values = rows.flatMap((row, i) => {
        const t = length / 2 / rateHz + 0.1 * i;
        if (t < startS + 0.1 || t > startS + lengthS - 0.1) return [];
        const bin = lawAt(cut, { startS, lengthS }, t).hz / binHz;
        const low = Math.floor(bin);
        return low < 1 || low + 1 >= row.length ? [] : [row[low] * (low + 1 - bin) + row[low + 1] * (bin - low)];
      });
      if (values.length < 0.6 * Math.floor(lengthS / 0.1)) continue;
      const sum = values.reduce((a, b) => a + b, 0);
      const score = sum / Math.sqrt(values.length);
      if (score > best.score) best = { score, mean: sum / values.length, startS, lengthS };
    }
  }
  if (best.mean < 1.1) return null;
  const signal = { rateHz, delayS: 0, left, right };
  const along = (place: SweepPlace): number => {
    let sum = 0;
    for (let s = place.startS + 0.5; s < place.startS + place.lengthS - 0.5; s += 0.5) {
      const heard = lockIn(signal, cut, place, s, 1, 0);
      if (heard !== null) sum += Math.log(1e-30 + heard.power);
    }
    return sum === 0 ? Number.NEGATIVE_INFINITY : Math.exp(sum / (2 * place.lengthS));
  };
  let at: SweepPlace = { startS: best.startS, lengthS: best.lengthS };
  let most = along(at);
  for (const by of [0.08, 0.04, 0.02, 0.01, 0.005]) {
    for (let moved = true; moved; ) {
      moved = false;
      for (const [ds, dl] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
        [1, -1],
        [-1, 1],
      ]) {
        const next = { startS: at.startS + ds * by, lengthS: at.lengthS + dl * by };
        const power = along(next);
        if (!(power > most * (1 + 1e-9))) continue;
        most = power;
        at = next;
        moved = true;
      }
    }
  }
  return at;
}

describe('where a sweep of a known law lies', () => {
  it.each([
    ['a log sweep after a second', short, { startS: 1.13, lengthS: 4.9 }, 7, 0.3, 0],
    [
      'a linear one, played a little fast, beside hum',
      { ...linear, durationS: 5 },
      { startS: 0.9, lengthS: 4.7 },
      6.2,
      0.2,
      0.5,
    ],
    ['one that has begun before the signal', { ...linear, durationS: 5 }, { startS: -1.1, lengthS: 5.1 }, 5.5, 0.1, 0],
    ['one that goes on beyond it', short, { startS: 2, lengthS: 5 }, 5.6, 0.1, 0],
    ['one of an unknown length', { ...linear, durationS: null }, { startS: 0.4, lengthS: 3.4 }, 4.2, 0.2, 0],
    ['nothing but noise', short, { startS: 90, lengthS: 5 }, 6, 0.3, 0],
    ['hardly more than noise', { ...linear, durationS: 4 }, { startS: 0.7, lengthS: 4 }, 5, 1.6, 0],
  ] as const)('%s', (_, cut, place, seconds, noise, hum) => {
    const signal = signalOf(cut, place, seconds, noise, hum, 80);
    const [of, wanted] = [findLowSweep(signal, cut), plain(signal, cut)];
    if (wanted === null) expect(of).toBeNull();
    else {
      expect(of?.startS).toBeCloseTo(wanted.startS, 9);
      expect(of?.lengthS).toBeCloseTo(wanted.lengthS, 9);
    }
    if (noise < 0.3) {
      expect(Math.abs((of?.startS ?? 99) - place.startS)).toBeLessThan(0.15);
      expect(Math.abs((of?.lengthS ?? 99) - place.lengthS)).toBeLessThan(0.25);
    }
  });

  it('silence, or a stretch of less than a second, holds none', () => {
    const still = (count: number): LowRateSignal => ({
      rateHz: 80,
      delayS: 0,
      left: new Float64Array(count),
      right: new Float64Array(count),
    });
    expect(findLowSweep(still(900), log)).toBeNull();
    expect(findLowSweep(still(70), { ...log, durationS: null })).toBeNull();
  });
});
