import { describe, expect, it } from 'vitest';
import { gaussian } from './gaussian.fixture.ts';
import { trackTone } from './trackedTone.ts';

const rateHz = 1000;

/** A tone that starts and ends in silence; eccentric swing of 0.3 % at 3150 Hz. */
function tone(length: number, from: number, to: number, sigma: number) {
  const draw = gaussian(5);
  const re = new Float64Array(length);
  const im = new Float64Array(length);
  const phase = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    phase[n] =
      2 *
      Math.PI *
      (2 * (n / rateHz) + (9.45 / (2 * Math.PI * 0.5556)) * Math.sin(2 * Math.PI * 0.5556 * (n / rateHz)));
    const size = n >= from && n < to ? 0.3 : 0;
    re[n] = size * Math.cos(phase[n]) + sigma * draw();
    im[n] = size * Math.sin(phase[n]) + sigma * draw();
  }
  return { re, im, phase };
}

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

/** Largest difference of two phases in the stretch, a common multiple of 2π aside. */
function apart(found: Float64Array, truth: Float64Array, from: number, to: number): number {
  const turns = Math.round((found[from] - truth[from]) / (2 * Math.PI));
  let worst = 0;
  for (let n = from; n < to; n++) worst = Math.max(worst, Math.abs(found[n] - truth[n] - 2 * Math.PI * turns));
  return worst;
}

describe('tracked tone', () => {
  it('finds the stretch between gaps and follows the phase without a slip', () => {
    const { re, im, phase } = tone(6000, 700, 5500, 1e-3);
    const t = trackTone(re, im, rateHz);
    if (!t.found) throw new Error(t.why);
    expect(t.from).toBeGreaterThanOrEqual(700);
    // the filters' reach, and the ends where a click could not be seen
    expect(t.from).toBeLessThan(780);
    expect(t.to).toBeLessThanOrEqual(5500);
    expect(t.to).toBeGreaterThan(5420);
    expect(t.usualAmplitude).toBeCloseTo(0.3, 2);
    expect(apart(t.phase, phase, t.from, t.to)).toBeLessThan(0.03);
  });

  it('leaves clicks out, only them, and carries the phase across', () => {
    const { re, im, phase } = tone(6000, 0, 6000, 1e-3);
    const clicks = [600, 1200, 1230, 2500, 4100, 5200];
    for (const at of clicks) {
      for (let k = -12; k <= 12; k++) {
        re[at + k] += 0.4 * Math.cos(0.7 * k + at) * Math.exp(-(k * k) / 30);
        im[at + k] += 0.4 * Math.sin(0.7 * k + at) * Math.exp(-(k * k) / 30);
      }
    }
    const t = trackTone(re, im, rateHz);
    if (!t.found) throw new Error(t.why);
    for (const at of clicks) expect(t.good[at]).toBe(0);
    expect(t.goodCount).toBeGreaterThan(6000 - clicks.length * 70);
    expect(apart(t.phase, phase, t.from, t.to)).toBeLessThan(0.05);
  });

  it('crosses a dropout of 0.2 s in full swing, and ends at one of half a second', () => {
    const short = tone(6000, 0, 6000, 1e-3);
    short.re.fill(0, 3000, 3200);
    short.im.fill(0, 3000, 3200);
    const t = trackTone(short.re, short.im, rateHz);
    if (!t.found) throw new Error(t.why);
    expect(t.to - t.from).toBeGreaterThan(5800);
    expect(apart(t.phase, short.phase, t.from, t.to)).toBeLessThan(0.1);
    const long = tone(6000, 0, 6000, 1e-3);
    long.re.fill(0, 2000, 2500);
    long.im.fill(0, 2000, 2500);
    const rest = trackTone(long.re, long.im, rateHz);
    expect(rest.found && rest.from >= 2500 && rest.to > 5900).toBe(true);
  });

  it('says why where there is nothing to follow', () => {
    const none = trackTone(new Float64Array(500), new Float64Array(500), rateHz);
    expect(none).toEqual({ found: false, why: 'no-tone' });
    const { re, im } = tone(60, 0, 60, 1e-3);
    expect(trackTone(re, im, rateHz)).toMatchObject({ found: false });
    expect(() => trackTone(re, new Float64Array(3), rateHz)).toThrow('60 and 3');
  });

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
