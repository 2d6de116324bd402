import { expect, it } from 'vitest';
import { HighPass, highPassGain } from './highPassSteep.ts';

const RATE = 48_000;

it.each([
  [4000, 3000],
  [4000, 4000],
  [4000, 9000],
  [2400, 800],
])('a corner at %i Hz lets a sine of %i Hz through as its gain says, in size', (corner, hz) => {
  const filter = new HighPass(RATE, corner);
  let [re, im] = [0, 0];
  const settle = 4800;
  for (let n = 0; n < settle + 4800; n++) {
    const w = (2 * Math.PI * hz * n) / RATE;
    const y = filter.next(Math.cos(w));
    if (n < settle) continue;
    re += (y * Math.cos(w)) / 2400;
    im -= (y * Math.sin(w)) / 2400;
  }
  expect(Math.hypot(re, im) / highPassGain(RATE, corner, hz)).toBeCloseTo(1, 6);
});

it('four sections of Q 0.6: 0.6⁴ at the corner, 48 dB an octave far under it, all above', () => {
  expect(highPassGain(RATE, 4000, 4000)).toBeCloseTo(0.6 ** 4, 12);
  // frequencies as the bilinear transform bends them
  const w = Math.tan((Math.PI * 1000) / RATE) / Math.tan((Math.PI * 4000) / RATE);
  expect(highPassGain(RATE, 4000, 1000)).toBeCloseTo((w ** 2 / Math.sqrt((1 - w ** 2) ** 2 + (w / 0.6) ** 2)) ** 4, 12);
  expect(highPassGain(RATE, 4000, 23_999)).toBeCloseTo(1, 3);
});

it('keeps nothing of what does not change, and starts with the whole of a step', () => {
  const filter = new HighPass(RATE, 4000);
  const first = filter.next(1);
  let last = 0;
  for (let n = 0; n < 2000; n++) last = filter.next(1);
  expect(Math.abs(last)).toBeLessThan(1e-9);
  const k = Math.tan((Math.PI * 4000) / RATE);
  expect(first).toBeCloseTo((1 / (1 + k / 0.6 + k * k)) ** 4, 12);
});
