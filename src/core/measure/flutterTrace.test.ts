import { describe, expect, it } from 'vitest';
import { addLines, mirrored, smoothed } from './flutterTrace.ts';

const values = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.sin(n * n + 1) + 0.3);

describe('a speed trace on its way into a spectrum and back', () => {
  it('lines are put in with their gain, their phases counted from the trace’s middle', () => {
    for (const length of [7, 100]) {
      const before = values(length);
      const trace = before.slice();
      const lines = [
        { hz: 0.7, cos: 0.5, sin: -0.2 },
        { hz: 3.1, cos: 0, sin: 1 },
      ];
      const gain = (hz: number): number => (hz < 1 ? 2 : -0.5);
      addLines(trace, lines, 20, gain);
      trace.forEach((value, n) => {
        const t = (n - (length - 1) / 2) / 20;
        const added = lines.reduce(
          (sum, { hz, cos, sin }) =>
            sum + gain(hz) * (cos * Math.cos(2 * Math.PI * hz * t) + sin * Math.sin(2 * Math.PI * hz * t)),
          0,
        );
        expect(value - before[n]).toBeCloseTo(added, 10);
      });
    }
  });

  it.each([
    [5, 16, 4],
    [5, 32, 13],
    [4, 16, 0],
    [3, 24, 9],
    [8, 16, 8],
  ])(
    '%i values in %i, %i before them, go on to both sides by mirror images, without their mean',
    (length, size, lead) => {
      const x = values(length);
      const mean = x.reduce((a, b) => a + b, 0) / length;
      const out = mirrored(x, size, lead);
      expect(out).toHaveLength(size);
      for (let n = 0; n < size; n++) {
        let at = n - lead;
        while (at < 0 || at >= length) at = at < 0 ? -1 - at : 2 * length - 1 - at;
        expect(out[n]).toBeCloseTo(x[at] - mean, 12);
      }
    },
  );

  it('powers are averaged over so many bins, or 6 % of the frequency, to either side; bin 0 stays out', () => {
    const power = values(200).map((v) => v * v);
    for (const least of [0, 1, 4]) {
      const out = smoothed(power, least);
      expect(out[0]).toBe(0);
      for (let k = 1; k < 200; k++) {
        const reach = Math.max(least, Math.round(0.06 * k));
        const near = Array.from(power).filter((_, i) => i >= 1 && Math.abs(i - k) <= reach);
        expect(out[k]).toBeCloseTo(near.reduce((a, b) => a + b, 0) / near.length, 12);
      }
    }
  });
});
