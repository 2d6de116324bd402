import { describe, expect, it } from 'vitest';
import { gaussian } from './gaussian.fixture.ts';
import { uncertaintyOfMean } from './uncertaintyOfMean.ts';

const rateHz = 1000;

/** Variance of the mean over many runs against what one run says of it. */
function ratio(make: (draw: () => number, n: number) => Float64Array, length: number, holes = false): number {
  const runs = 300;
  let said = 0;
  let seen = 0;
  for (let run = 0; run < runs; run++) {
    const x = make(gaussian(900 + run), length);
    const good = new Uint8Array(length).fill(1);
    if (holes) for (let n = 0; n < length; n++) if (n % 500 < 60) good[n] = 0;
    let sum = 0;
    let count = 0;
    for (let n = 0; n < length; n++) {
      if (good[n] === 1) {
        sum += x[n];
        count += 1;
      }
    }
    const mean = sum / count;
    seen += mean * mean;
    const left = x.map((v) => v - mean);
    said += uncertaintyOfMean(left, new Float64Array(length), good, 0, length, rateHz).varRe;
  }
  return seen / said;
}

describe('uncertainty of a mean', () => {
  it('is right within 20 % for white noise, with and without holes', () => {
    const white = (draw: () => number, n: number) => Float64Array.from({ length: n }, draw);
    for (const holes of [false, true]) {
      const r = ratio(white, 4000, holes);
      expect(r).toBeGreaterThan(0.8);
      expect(r).toBeLessThan(1.2);
    }
  });

  it('a line that swings a few times counts for what it leaves in the mean, beside noise and alike at any phase', () => {
    for (const [periods, size] of [
      [2.3, 0.5],
      [2.3, 3],
      [3.5, 1],
      [5.6, 2],
    ]) {
      const swinging = (draw: () => number, n: number) => {
        const phase = 2 * Math.PI * (0.5 + 0.5 * Math.tanh(draw()));
        return Float64Array.from(
          { length: n },
          (_, i) => size * Math.cos((2 * Math.PI * periods * i) / n + 50 * phase) + draw(),
        );
      };
      const r = ratio(swinging, 2000);
      expect(r, `${periods} periods`).toBeGreaterThan(0.8);
      expect(r, `${periods} periods`).toBeLessThan(1.25);
    }
  });

  it('is right within a quarter for noise that hums at 3 Hz width, and no more than half too small for slow wander', () => {
    const filtered = (share: number) => (draw: () => number, n: number) => {
      let y = 0;
      for (let k = 0; k < 5 / share; k++) y += share * (draw() - y);
      return Float64Array.from({ length: n }, () => {
        y += share * (draw() - y);
        return y;
      });
    };
    const humming = ratio(filtered(0.1), 4000);
    expect(humming).toBeGreaterThan(0.75);
    expect(humming).toBeLessThan(1.35);
    const wandering = ratio(filtered(0.01), 8000);
    expect(wandering).toBeLessThan(2.2);
  });
});
