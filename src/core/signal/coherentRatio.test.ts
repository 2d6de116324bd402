import { describe, expect, it } from 'vitest';
import type { Complex } from '../units/complex.ts';
import { coherentRatio } from './coherentRatio.ts';
import { gaussian } from './gaussian.fixture.ts';

const rateHz = 1000;
const length = 3000;

/** A tone of amplitude 1 that wanders by a radian, and a leak of it in noise. */
function capture(seed: number, leak: Complex, sigma: number) {
  const draw = gaussian(seed);
  const d = { re: new Float64Array(length), im: new Float64Array(length) };
  const y = { re: new Float64Array(length), im: new Float64Array(length) };
  for (let n = 0; n < length; n++) {
    const phase = Math.sin((2 * Math.PI * 0.6 * n) / rateHz);
    d.re[n] = Math.cos(phase);
    d.im[n] = Math.sin(phase);
    y.re[n] = leak.re * d.re[n] - leak.im * d.im[n] + sigma * draw();
    y.im[n] = leak.re * d.im[n] + leak.im * d.re[n] + sigma * draw();
  }
  return { d, y, good: new Uint8Array(length).fill(1) };
}

describe('coherent ratio', () => {
  it('reaches the Cramér-Rao bound σ²/N within 1.2, and says so (200 runs)', () => {
    const leak = { re: 0.02, im: -0.03 };
    const sigma = 0.05;
    let seen = 0;
    let said = 0;
    const runs = 200;
    for (let run = 0; run < runs; run++) {
      const { d, y, good } = capture(50 + run, leak, sigma);
      const m = coherentRatio(y, d, good, 0, length, rateHz, 1037);
      seen += ((m.re - leak.re) ** 2 + (m.im - leak.im) ** 2) / 2;
      said += (m.varRe + m.varIm) / 2;
    }
    const bound = sigma ** 2 / length;
    console.log(
      `coherent ratio: variance ${(seen / runs / bound).toFixed(3)} of the bound, stated ${(said / runs / bound).toFixed(3)}`,
    );
    expect(seen / runs / bound).toBeGreaterThan(0.8);
    expect(seen / runs / bound).toBeLessThan(1.2);
    expect(said / runs / bound).toBeGreaterThan(0.85);
    expect(said / runs / bound).toBeLessThan(1.2);
  });

  it('leaves clicks in the leak out', () => {
    const leak = { re: 0.02, im: 0 };
    const { d, y, good } = capture(3, leak, 1e-4);
    for (const at of [400, 900, 1700]) {
      for (let k = -10; k <= 10; k++) y.re[at + k] += 0.5 * Math.exp(-(k * k) / 20);
    }
    const m = coherentRatio(y, d, good, 0, length, rateHz, 1037);
    expect(Math.abs(m.re - leak.re)).toBeLessThan(2e-5);
    expect(m.usedS).toBeGreaterThan(2.8);
    expect(m.usedS).toBeLessThan(2.95);
  });

  it('allows for a mains line under the tone where its neighbours show one, and not where wow makes it slide', () => {
    const still = { d: { re: new Float64Array(length).fill(1), im: new Float64Array(length) } };
    const { d: sliding, y, good } = capture(8, { re: 0, im: 0 }, 1e-4);
    // 950, 1000 and 1050 Hz of one size, the tone at 1000 Hz
    for (let n = 0; n < length; n++) {
      for (const [offset, phase] of [
        [-50, 1],
        [0, 0.4],
        [50, 2],
        [100, 0],
      ]) {
        y.re[n] += 0.002 * Math.cos((2 * Math.PI * offset * n) / rateHz + phase);
        y.im[n] += 0.002 * Math.sin((2 * Math.PI * offset * n) / rateHz + phase);
      }
    }
    const hidden = coherentRatio(y, still.d, good, 0, length, rateHz, 1000);
    // the line of 0.002 is read as a leak; it lies inside k = 2
    expect(Math.hypot(hidden.re, hidden.im)).toBeGreaterThan(0.0018);
    expect(Math.sqrt(hidden.varRe + hidden.varIm)).toBeGreaterThan(0.0012);
    expect(Math.sqrt(hidden.varRe + hidden.varIm)).toBeLessThan(0.004);
    const fast = { re: sliding.re.map((_, n) => Math.cos(0.1 * n)), im: sliding.im.map((_, n) => Math.sin(0.1 * n)) };
    const apart = coherentRatio(y, fast, good, 0, length, rateHz, 1000);
    expect(Math.sqrt(apart.varRe + apart.varIm)).toBeLessThan(3e-4);
  });
});
