import { describe, expect, it } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { riaaDb } from './chainLevel.ts';
import { ARM, LowRate } from './lowRate.ts';
import { type LowSweepPoint, type LowSweepReading, lowSweepKind } from './lowSweepEstimator.ts';
import { placeOf, sweptResonance } from './lowSweepFit.ts';
import { findLowSweep, lawAt, lockIn, type SweepCut } from './lowSweepPlace.ts';
import { sheetOf } from './toneBands.fixture.ts';

const RATE = 1200;
const cut: SweepCut = { fromHz: 6, toHz: 40, law: 'linear', durationS: 6 };
const place = { startS: 0.9, lengthS: 6 };
const draw = gaussian(2);
const frames = 8 * RATE;
const left = Float64Array.from({ length: frames }, (_, n) => {
  const t = n / RATE;
  const inside = t >= place.startS && t <= place.startS + place.lengthS;
  const { cycles, hz } = lawAt(cut, place, t);
  const arm = 1 / Math.hypot(1 - (11 / hz) ** 2, 11 / hz / 2);
  return (inside ? 0.1 * arm * Math.cos(2 * Math.PI * cycles) : 0) + 2e-3 * draw();
});
const right = left.map((v) => 0.9 * v + 1e-3 * draw());

describe('a sweep through the arm’s resonance', () => {
  it('is found, placed again twice by its phase, and read along the law with what else lies beside it', () => {
    const estimator = lowSweepKind.begin(RATE, { cut, sheetBand: 3 });
    const kept = new LowRate(RATE, ARM);
    for (let from = 0; from < frames; from += 1000) {
      const to = Math.min(frames, from + 1000);
      const block = {
        startFrame: from,
        frames: to - from,
        left: left.subarray(from, to),
        right: right.subarray(from, to),
      };
      estimator.push(block);
      kept.push(block);
    }
    const reading = estimator.result();
    estimator.end();
    const signal = kept.signal();
    kept.end();
    let at = findLowSweep(signal, cut);
    if (at === null) throw new Error('not found');
    const along = (where: typeof place) => {
      const points: LowSweepPoint[] = [];
      const endS = where.startS + where.lengthS;
      for (let t = where.startS; t < endS; ) {
        const { hz, hzPerS } = lawAt(cut, where, t);
        const windowS = Math.min(2, Math.max(0.25, 4 / hz, 1 / Math.sqrt(Math.abs(hzPerS))));
        const heard =
          t - windowS / 2 < where.startS || t + windowS / 2 > endS ? null : lockIn(signal, cut, where, t, windowS, 0);
        if (heard !== null && hz < 150) {
          const beside = [-6, -4.5, -3, 3, 4.5, 6]
            .filter((k) => hz + k / windowS >= 1)
            .flatMap((k) => lockIn(signal, cut, where, t, windowS, k / windowS)?.power ?? [])
            .toSorted((a, b) => a - b);
          points.push({
            s: t - where.startS,
            hz,
            hzPerS,
            windowS,
            left: heard.left,
            right: heard.right,
            noise: beside.length === 0 ? 0 : beside[Math.floor(beside.length / 2)],
          });
        }
        t += windowS / 3;
      }
      return points;
    };
    let points = along(at);
    for (let round = 0; round < 2; round++) {
      const before: LowSweepReading = { sheetBand: 3, cut, place: at, points };
      at = placeOf(before, sweptResonance(before, 'lateral', true, riaaDb)) ?? at;
      points = along(at);
    }
    expect(reading).toEqual({
      sheetBand: 3,
      cut,
      place: { startS: at.startS + signal.delayS, lengthS: at.lengthS },
      points,
    });
    // and is where it was played
    expect(reading.place?.startS).toBeCloseTo(place.startS, 1);
    expect(reading.place?.lengthS).toBeCloseTo(place.lengthS, 1);
    expect(points.length).toBeGreaterThan(20);
  });

  it('nothing of that law is nothing read', () => {
    const estimator = lowSweepKind.begin(RATE, { cut, sheetBand: 3 });
    const still = new Float64Array(3 * RATE);
    estimator.push({ startFrame: 0, frames: still.length, left: still, right: still });
    expect(estimator.result()).toEqual({ sheetBand: 3, cut, place: null, points: [] });
    estimator.end();
  });
});

describe('what is asked of it', () => {
  const sweep: SheetBand = { signal: 'sweep', motion: 'lateral', fromHz: 25, toHz: 4 };
  const asked = (signal: Passage['signal'], bands: readonly SheetBand[] | null, sheetBand?: number) =>
    lowSweepKind.settings(
      { signal, startS: 0, endS: 30, band: null, ...(sheetBand === undefined ? {} : { sheetBand }) },
      { sheet: bands === null ? null : sheetOf(bands) } as SideKnown,
    );

  it('the law that the record file states, logarithmic where it says nothing', () => {
    expect(asked('low-sweep', [sweep], 0)).toEqual({
      sheetBand: 0,
      cut: { fromHz: 25, toHz: 4, law: 'log', durationS: null },
    });
    expect(asked('low-sweep', [sweep, { ...sweep, law: 'linear', durationS: 40 }], 1)?.cut).toEqual({
      fromHz: 25,
      toHz: 4,
      law: 'linear',
      durationS: 40,
    });
  });

  it('nothing of other passages, or where the file has no such band or no ends', () => {
    expect(asked('sweep', [sweep], 0)).toBeNull();
    expect(asked('low-sweep', [sweep])).toBeNull();
    expect(asked('low-sweep', [sweep], 2)).toBeNull();
    expect(asked('low-sweep', null, 0)).toBeNull();
    expect(asked('low-sweep', [{ ...sweep, fromHz: undefined }], 0)).toBeNull();
    expect(asked('low-sweep', [{ ...sweep, toHz: undefined }], 0)).toBeNull();
  });
});
