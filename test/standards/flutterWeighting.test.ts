/**
 * The weighting of speed deviations. IEC 60386; its table is from memory, not seen in a source, and is marked so wherever a
 * weighted figure is shown. The published description of its shape (AES6: about 6 dB an octave down either side of 4 Hz,
 * a further fall below 0.5 Hz) is seen there and is checked beside it.
 */
import { describe, expect, it } from 'vitest';
import {
  smoothWeightingDb,
  straightWeightingDb,
  weightedGain,
  weightingDb,
  weightingDoubt,
} from '../../src/core/measure/flutterWeighting.ts';

/** Hz, dB; from memory. A smooth curve through its neighbours passes 63 Hz 0.4 dB higher. */
const table = [
  [0.1, -48.0],
  [0.2, -30.6],
  [0.315, -19.7],
  [0.4, -15.0],
  [0.63, -8.4],
  [0.8, -6.0],
  [1.0, -4.2],
  [1.6, -1.8],
  [2, -0.9],
  [4, 0],
  [6.3, -0.9],
  [10, -2.1],
  [20, -5.9],
  [40, -10.4],
  [63, -14.2],
  [100, -17.3],
  [200, -23.0],
] as const;

describe('flutter weighting', () => {
  it.each(table)('%s Hz: %s dB (from memory)', (hz, db) => {
    expect(weightingDb(hz)).toBeCloseTo(db, 9);
    expect(20 * Math.log10(weightedGain(hz))).toBeCloseTo(db, 9);
  });

  it('is greatest at 4 Hz and falls without a bump on both sides', () => {
    let last = 0;
    for (let hz = 4 * 1.01; hz < 400; hz *= 1.01) {
      expect(weightingDb(hz)).toBeLessThan(last);
      last = weightingDb(hz);
    }
    last = 0;
    for (let hz = 4 / 1.01; hz > 0.05; hz /= 1.01) {
      expect(weightingDb(hz)).toBeLessThan(last);
      last = weightingDb(hz);
    }
  });

  it('has the shape that is described: towards 6 dB an octave either side of 4 Hz, more below 0.5 Hz', () => {
    const octave = (hz: number): number => weightingDb(2 * hz) - weightingDb(hz);
    for (const hz of [0.5, 0.63, 0.8]) expect(Math.abs(octave(hz) - 6)).toBeLessThan(2.5);
    for (const hz of [25, 50, 100]) expect(Math.abs(octave(hz) + 6)).toBeLessThan(1.5);
    for (const hz of [0.1, 0.2, 0.25]) expect(octave(hz)).toBeGreaterThan(12);
  });

  it('lies between the curves that join its points, nearer to the smooth one, and knows how far the straight one is', () => {
    // straight lines by hand: −15 + 6.6 · lg(0.5556/0.4)/lg(0.63/0.4)
    expect(straightWeightingDb(0.5556)).toBeCloseTo(-10.226, 3);
    expect(smoothWeightingDb(0.5556)).toBeCloseTo(-9.98, 2);
    for (let hz = 0.11; hz < 200; hz *= 1.03) {
      const [smooth, straight] = [smoothWeightingDb(hz), straightWeightingDb(hz)];
      expect(weightingDb(hz)).toBeGreaterThanOrEqual(Math.min(smooth, straight) - 1e-12);
      expect(weightingDb(hz)).toBeLessThanOrEqual(Math.max(smooth, straight) + 1e-12);
      expect(20 * Math.log10(Math.exp(weightingDoubt(hz)))).toBeCloseTo(Math.abs(weightingDb(hz) - straight), 9);
      expect(Math.abs(weightingDb(hz) - smooth)).toBeCloseTo(Math.abs(weightingDb(hz) - straight) / 2, 9);
    }
  });
});
