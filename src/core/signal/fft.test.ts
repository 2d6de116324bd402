import FFT from 'fft.js';
import { describe, expect, it } from 'vitest';
import { ComplexFft, stereoBin } from './fft.ts';

/** Deterministic values in (−1, 1); a linear congruential generator is random enough for a transform's input. */
function noise(length: number, seed: number): Float64Array {
  let s = seed >>> 0;
  return Float64Array.from({ length }, () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 2 ** 31 - 1;
  });
}

describe('ComplexFft', () => {
  it('agrees with fft.js on every power of two to 2^16', () => {
    let worst = 0;
    for (let power = 1; power <= 16; power++) {
      const n = 2 ** power;
      const re = noise(n, power);
      const im = noise(n, 100 + power);
      const oracle = new FFT(n);
      const input: number[] = oracle.createComplexArray();
      for (let i = 0; i < n; i++) {
        input[2 * i] = re[i];
        input[2 * i + 1] = im[i];
      }
      const expected: number[] = oracle.createComplexArray();
      oracle.transform(expected, input);
      new ComplexFft(n).forward(re, im);
      for (let i = 0; i < n; i++) {
        worst = Math.max(worst, Math.hypot(re[i] - expected[2 * i], im[i] - expected[2 * i + 1]) / Math.sqrt(n));
      }
    }
    console.log(`FFT: largest difference from fft.js ${worst.toExponential(2)} of the rms of a bin`);
    expect(worst).toBeLessThan(2e-15);
  });

  it('is the definition, sign included: e^(+2πi 3n/N) lands in bin 3', () => {
    const n = 32;
    const re = Float64Array.from({ length: n }, (_, i) => Math.cos((2 * Math.PI * 3 * i) / n));
    const im = Float64Array.from({ length: n }, (_, i) => Math.sin((2 * Math.PI * 3 * i) / n));
    new ComplexFft(n).forward(re, im);
    expect(re[3]).toBeCloseTo(n, 12);
    expect(re.reduce((s, v, i) => s + (i === 3 ? 0 : Math.abs(v)), 0)).toBeLessThan(1e-12);
  });

  it('keeps energy (Parseval), and inverse undoes forward', () => {
    for (const n of [1, 2, 8, 512, 2048]) {
      const re = noise(n, 7);
      const im = noise(n, 8);
      const was = { re: re.slice(), im: im.slice() };
      const energy = (): number => re.reduce((s, v, i) => s + v * v + im[i] * im[i], 0);
      const before = energy();
      const fft = new ComplexFft(n);
      fft.forward(re, im);
      expect(energy() / n / before).toBeCloseTo(1, 12);
      fft.inverse(re, im);
      for (let i = 0; i < n; i++) {
        expect(re[i]).toBeCloseTo(was.re[i], 13);
        expect(im[i]).toBeCloseTo(was.im[i], 13);
      }
    }
  });

  it('gives both channels from one transform', () => {
    const n = 256;
    const left = noise(n, 21);
    const right = noise(n, 22);
    const fft = new ComplexFft(n);
    const zr = left.slice();
    const zi = right.slice();
    fft.forward(zr, zi);
    const lr = left.slice();
    const li = new Float64Array(n);
    fft.forward(lr, li);
    const rr = right.slice();
    const ri = new Float64Array(n);
    fft.forward(rr, ri);
    for (let k = 0; k <= n / 2; k++) {
      const bin = stereoBin(zr, zi, k);
      expect(bin.leftRe).toBeCloseTo(lr[k], 12);
      expect(bin.leftIm).toBeCloseTo(li[k], 12);
      expect(bin.rightRe).toBeCloseTo(rr[k], 12);
      expect(bin.rightIm).toBeCloseTo(ri[k], 12);
    }
  });

  it('refuses a size that is no power of two and arrays that do not fit', () => {
    expect(() => new ComplexFft(12)).toThrow('size 12 must be a power of two');
    expect(() => new ComplexFft(Number.NaN)).toThrow(RangeError);
    expect(() => new ComplexFft(8).forward(new Float64Array(8), new Float64Array(4))).toThrow('both must hold 8');
    expect(() => stereoBin(new Float64Array(8), new Float64Array(8), 5)).toThrow('bin from 0 to 4');
  });
});
