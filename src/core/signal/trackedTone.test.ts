import { describe, expect, it } from 'vitest';
import { trackTone } from './trackedTone.ts';

const rateHz = 1000;
/** A steady tone 3 Hz above the mixing frequency, with clicks of 10 ms at the given samples. */
function baseband(length: number, clicks: readonly number[]): { re: Float64Array; im: Float64Array } {
  const re = new Float64Array(length);
  const im = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    const phase = (2 * Math.PI * 3 * n) / rateHz;
    re[n] = 0.2 * Math.cos(phase);
    im[n] = 0.2 * Math.sin(phase);
  }
  for (const at of clicks) {
    for (let n = at; n < Math.min(length, at + 10); n++) {
      re[n] += 0.04;
      im[n] -= 0.03;
    }
  }
  return { re, im };
}

describe('the tone inside a baseband', () => {
  it('leaves clicks out, wherever they fall: in the middle and at either end', () => {
    for (const clicks of [[2500], [20], [4970], [5, 2500, 4985]]) {
      const { re, im } = baseband(5000, clicks);
      const tone = trackTone(re, im, rateHz);
      expect(tone.found).toBe(true);
      if (!tone.found) continue;
      for (const at of clicks) for (let n = at; n < at + 10; n++) expect(tone.good[n] ?? 0).toBe(0);
      const slope = (tone.phase[tone.to - 1] - tone.phase[tone.from]) / (tone.to - 1 - tone.from);
      expect(slope).toBeCloseTo((2 * Math.PI * 3) / rateHz, 9);
      expect(tone.goodCount).toBeGreaterThan(4600);
    }
  });

  it('keeps all of a short tone', () => {
    const { re, im } = baseband(800, []);
    const tone = trackTone(re, im, rateHz);
    expect(tone.found && tone.goodCount).toBe(800);
  });
});
