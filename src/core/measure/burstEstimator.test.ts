/** Against the same reading written out over the whole signal at once: frames, phases, folds, medians, means. */
import { describe, expect, it } from 'vitest';
import type { Band } from '../record/band.ts';
import type { SheetBand } from '../record/sheet.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { median } from '../signal/robust.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { type BurstReading, burstKind } from './burstEstimator.ts';
import { FoldedPeriod } from './foldedPeriod.ts';
import { HighPass, highPassGain } from './highPassSteep.ts';
import { bandOf, sheetOf } from './toneBands.fixture.ts';

interface Sound {
  readonly left: Float64Array;
  readonly right: Float64Array;
}
/** A tone with wow, a knock once a period in one channel, noise; louder and silent at its end, one click. */
function sound(rate: number, hz: number, seconds: number, loud: 'left' | 'right'): Sound {
  const draw = gaussian(11);
  const frames = Math.round(rate * seconds);
  const one = new Float64Array(frames);
  const other = new Float64Array(frames);
  for (let n = 0; n < frames; n++) {
    const t = n / rate;
    const turns = hz * (t + 2e-3 * Math.sin(3 * t));
    const fade = t > seconds - 0.15 ? 0.7 : t < 0.12 ? 1.3 : 1;
    const since = (turns - Math.floor(turns)) / hz;
    const knock = 0.03 * Math.exp(-since * 9000) * Math.cos(2 * Math.PI * 6500 * since);
    const click = Math.abs(t - seconds / 2) < 1e-3 ? 0.3 * Math.sin(9 * n) : 0;
    one[n] = 0.4 * fade * Math.cos(2 * Math.PI * turns + 0.3) + knock + 2e-3 * draw() + click;
    other[n] = -0.2 * fade * Math.cos(2 * Math.PI * turns + 0.3) + 2e-3 * draw();
  }
  return loud === 'left' ? { left: one, right: other } : { left: other, right: one };
}

function plain({ left, right }: Sound, rate: number, hz: number): BurstReading {
  const size = Math.round((Math.max(2, Math.round(0.02 * hz)) / hz) * rate);
  const omega = (2 * Math.PI * hz) / rate;
  const corner = Math.max(8 * hz, 4000);
  const first = Math.ceil(Math.max(8, 4000 / hz));
  const last = Math.floor(Math.min(15_000, 0.4 * rate) / hz);
  const high = (x: Float64Array): Float64Array => {
    const filter = new HighPass(rate, corner);
    return x.map((v) => filter.next(v));
  };
  const [highLeft, highRight] = [high(left), high(right)];
  const frames = Array.from({ length: Math.floor(left.length / size) }, (_, f) => {
    const lockIn = (x: Float64Array) => {
      let [re, im] = [0, 0];
      for (let n = 0; n < size; n++) {
        re += (x[f * size + n] * Math.cos(omega * n)) / size;
        im -= (x[f * size + n] * Math.sin(omega * n)) / size;
      }
      return { power: 2 * (re * re + im * im), phase: Math.atan2(im, re) + (omega * (size - 1)) / 2 };
    };
    const part = (x: Float64Array): Float64Array => x.slice(f * size, (f + 1) * size);
    return { of: { left: lockIn(left), right: lockIn(right) }, left: part(highLeft), right: part(highRight) };
  });
  const louder = frames[0].of.left.power > frames[0].of.right.power ? 'left' : 'right';
  const fold = new FoldedPeriod(first, last);
  // unwrapped phases: each step the nearest to what the tone should make
  const step = (a: number, b: number): number => {
    const off = frames[b].of[louder].phase - frames[a].of[louder].phase - omega * size;
    return omega * size + Math.atan2(Math.sin(off), Math.cos(off));
  };
  const folds = frames.slice(2, -1).map((frame, i) => {
    const at = i + 2;
    const [back, on] = [step(at - 1, at), step(at, at + 1)];
    const folded = fold.of(frame, (n) => {
      const t = (n - (size - 1) / 2) / size;
      return frame.of[louder].phase + (t * (back + on)) / 2 + (t * t * (on - back)) / 2;
    });
    return { ...folded, tone: frame.of };
  });
  const most = { left: 2 * median(folds.map((f) => f.left.power)), right: 2 * median(folds.map((f) => f.right.power)) };
  const usual = median(folds.map((f) => f.tone[louder].power));
  const used = folds.filter(
    (f) =>
      f.left.power <= most.left &&
      f.right.power <= most.right &&
      f.tone[louder].power / usual < 1.25 &&
      f.tone[louder].power / usual > 1 / 1.25,
  );
  const count = used.length;
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / Math.max(1, values.length);
  const lines = (of: readonly Float32Array[], orders: number, gain: (i: number) => number) => {
    const all = Array.from({ length: orders }, (_, i) => {
      const [re, im] = [mean(of.map((v) => v[2 * i])), mean(of.map((v) => v[2 * i + 1]))];
      const square = of.reduce((s, v) => s + (v[2 * i] - re) ** 2 + (v[2 * i + 1] - im) ** 2, 0);
      return { re: re / gain(i), im: im / gain(i), variance: square / (count * (count - 1)) / gain(i) ** 2 };
    });
    return { re: all.map((v) => v.re), im: all.map((v) => v.im), variance: all.map((v) => v.variance) };
  };
  const channel = (name: 'left' | 'right') => ({
    tone: mean(used.map((f) => f.tone[name].power)),
    even: mean(used.map((f) => f[name].power)),
    lines: lines(
      used.map((f) => f[name].lines),
      last - first + 1,
      (i) => highPassGain(rate, corner, (first + i) * hz),
    ),
    bursts: lines(
      used.map((f) => f[name].bursts),
      4,
      () => 1,
    ),
  });
  return { hz, first, frames: count, left: channel('left'), right: channel('right') };
}

function read({ left, right }: Sound, rate: number, hz: number, block: number): BurstReading {
  const estimator = burstKind.begin(rate, { hz });
  for (let from = 0; from < left.length; from += block) {
    const to = Math.min(left.length, from + block);
    estimator.push({
      startFrame: from,
      frames: to - from,
      left: left.subarray(from, to),
      right: right.subarray(from, to),
    });
  }
  const reading = estimator.result();
  estimator.end();
  return reading;
}

describe('what of the sound far above a tone stands at one place of its period', () => {
  it.each([
    [32_000, 301, 'left', 1000],
    [44_100, 998, 'right', 777],
    [24_000, 600, 'left', 100_000],
  ] as const)('at %i Hz, a tone of %i Hz louder in the %s', (rate, hz, loud, block) => {
    const heard = sound(rate, hz, 1.6, loud);
    const [of, wanted] = [read(heard, rate, hz, block), plain(heard, rate, hz)];
    expect([of.hz, of.first, of.frames]).toEqual([wanted.hz, wanted.first, wanted.frames]);
    // the click, and the fading ends, do not count
    expect(of.frames).toBeLessThan(1.6 / 0.02 - 12);
    expect(of.frames).toBeGreaterThan(40);
    for (const name of ['left', 'right'] as const) {
      const [a, b] = [of[name], wanted[name]];
      expect(a.tone / b.tone).toBeCloseTo(1, 9);
      expect(a.even / b.even).toBeCloseTo(1, 9);
      for (const part of ['lines', 'bursts'] as const) {
        for (const key of ['re', 'im', 'variance'] as const) {
          expect(a[part][key]).toHaveLength(b[part][key].length);
          const scale = Math.max(...b[part][key].map(Math.abs));
          a[part][key].forEach((v, i) => {
            expect(Math.abs(v - b[part][key][i]) / scale).toBeLessThan(1e-6);
          });
        }
      }
    }
  });

  it('forty seconds of frames at most', () => {
    const rate = 10_400;
    const hz = 80;
    const size = 260;
    const left = Float64Array.from(
      { length: 2010 * size },
      (_, n) => Math.cos((2 * Math.PI * hz * n) / rate) + 0.1 * Math.cos((102 * Math.PI * hz * n) / rate),
    );
    expect(read({ left, right: left }, rate, hz, 80_000).frames).toBe(2000);
  });

  it('a stretch too short for a frame says nothing', () => {
    const of = read({ left: new Float64Array(300), right: new Float64Array(300) }, 32_000, 300, 100);
    expect(of.frames).toBe(0);
    expect(of.left).toMatchObject({ tone: 0, even: 0 });
    expect(of.left.lines.re.every((v) => v === 0)).toBe(true);
  });
});

describe('which bands are read so', () => {
  const lateral = (peakVelocityCmS: number | undefined, more: Partial<SheetBand> = {}): SheetBand => ({
    signal: 'tone',
    motion: 'lateral',
    frequencyHz: 300,
    peakVelocityCmS,
    ...more,
  });
  const steps = [lateral(5), lateral(8), lateral(12)];
  const asked = (
    band: Partial<Band> | null,
    sheet: readonly SheetBand[] | null = steps,
    lengthS = 5,
    sampleRateHz = 48_000,
  ) =>
    burstKind.settings(
      {
        signal: 'tone',
        startS: 1,
        endS: 1 + lengthS,
        band: band === null ? null : bandOf({ frequencyHz: 301, sheetBand: 1, ...band }),
      } as Passage,
      { sheet: sheet === null ? null : sheetOf(sheet), sampleRateHz } as SideKnown,
    );

  it('tones that the record file has in three steps of level or more, cut laterally', () => {
    expect(asked({})).toEqual({ hz: 301 });
    expect(asked(null)).toBeNull();
    expect(asked({ signal: 'sweep' })).toBeNull();
    expect(asked({ frequencyHz: null })).toBeNull();
    expect(asked({ sheetBand: null })).toBeNull();
    expect(asked({}, null)).toBeNull();
    expect(asked({ sheetBand: 7 })).toBeNull();
    expect(asked({}, [lateral(5), lateral(8, { motion: 'vertical' }), lateral(12), lateral(15)])).toBeNull();
    expect(asked({}, [lateral(5), lateral(undefined), lateral(12), lateral(15)])).toBeNull();
    // two steps; a third of another motion, frequency or signal, or of the same level, is none
    expect(asked({}, [lateral(5), lateral(8)])).toBeNull();
    for (const third of [
      lateral(12, { motion: 'left' }),
      lateral(12, { frequencyHz: 315 }),
      lateral(12, { signal: 'two-tone' }),
      lateral(8),
      lateral(undefined),
    ])
      expect(asked({}, [lateral(5), lateral(8), third])).toBeNull();
  });

  it('0.8 s or more, from 80 to 1200 Hz, as far as the capture holds eight times that', () => {
    expect(asked({}, steps, 0.8 + 1e-9)).not.toBeNull();
    expect(asked({}, steps, 0.79)).toBeNull();
    expect([79, 80, 1200, 1201].map((frequencyHz) => asked({ frequencyHz }) !== null)).toEqual([
      false,
      true,
      true,
      false,
    ]);
    // 8 · 301 under 0.35 of the rate
    expect(asked({}, steps, 5, 6900)).not.toBeNull();
    expect(asked({}, steps, 5, 6870)).toBeNull();
  });
});
