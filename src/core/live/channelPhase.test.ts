import { describe, expect, it } from 'vitest';
import { ChannelPhase } from './channelPhase.ts';

const RATE = 48_000;
const FRAMES = 2048;
/** a look that begins at a frame: right turned by deg, with noise of its own that is the same in every run */
function look(from: number, deg: number, rightGain = 0.02, noise = 1e-4): Float32Array {
  const points = new Float32Array(2 * FRAMES);
  for (let i = 0; i < FRAMES; i++) {
    const n = from + i;
    const angle = (2 * Math.PI * 1003.7 * n) / RATE;
    points[2 * i] = 0.3 * Math.cos(angle) + noise * Math.sin(n * n * 0.7);
    points[2 * i + 1] = rightGain * Math.cos(angle + (deg * Math.PI) / 180) + noise * Math.sin(n * n * 0.9 + 1);
  }
  return points;
}
function seen(looks: number, of: (i: number) => Float32Array) {
  const phase = new ChannelPhase();
  let now = null;
  // the tone is known to 0.3 Hz only
  for (let i = 0; i < looks; i++) now = phase.look(of(i), 1004, RATE);
  return now;
}

describe('phase of right against left', () => {
  it.each([0, 60, -135, 180])('%i°, also where right is a leak 23 dB down', (deg) => {
    const now = seen(30, (i) => look(800 * i, deg));
    expect(now).not.toBeNull();
    const off = (((((now?.deg ?? 0) - deg) % 360) + 540) % 360) - 180;
    expect(Math.abs(off)).toBeLessThanOrEqual(Math.max(0.05, now?.spreadDeg ?? 0));
    expect(now?.spreadDeg).toBeLessThan(2);
  });

  it('its ± grows with the noise, and where looks do not agree there is none', () => {
    const clean = seen(30, (i) => look(800 * i, 60));
    const noisy = seen(30, (i) => look(800 * i, 60, 0.02, 0.02));
    expect(noisy?.spreadDeg).toBeGreaterThan(3 * (clean?.spreadDeg ?? 1));
    expect(seen(30, (i) => look(800 * i, 47 * i))).toBeNull();
  });

  it('silence and too few looks tell nothing; another tone begins anew', () => {
    expect(seen(30, () => new Float32Array(2 * FRAMES))).toBeNull();
    expect(seen(7, (i) => look(800 * i, 60))).toBeNull();
    const phase = new ChannelPhase();
    for (let i = 0; i < 30; i++) phase.look(look(800 * i, 60), 1004, RATE);
    expect(phase.look(look(0, 60), 3150, RATE)).toBeNull();
  });
});
