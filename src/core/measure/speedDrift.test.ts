import { expect, it } from 'vitest';
import { speedLine } from './speedDrift.ts';

const at = (atS: number, value: number, spread = 1e-5) => ({ atS, value, variance: spread ** 2 });

it('is the slope of the means, with what their own uncertainties make of it', () => {
  const line = speedLine([0, 100, 200, 400].map((t) => at(t, 0.002 - 1e-6 * t)))!;
  // where the line is drawn
  expect(line.level - line.slope * line.middleS).toBeCloseTo(0.002, 9);
  expect(line.slope).toBeCloseTo(-1e-6, 12);
  expect(line.overS).toBe(400);
  // σ/√Σ(t − t̄)², Σ over 0, 100, 200, 400 about 175 is 87 500
  expect(line.spread).toBeCloseTo(Math.sqrt(1e-10 + 4e-12) / Math.sqrt(87_500), 11);
});

it('widens where the means scatter by more than they allow', () => {
  const calm = speedLine([at(0, 0), at(100, 0), at(200, 0)])!;
  const wild = speedLine([at(0, 0), at(100, 1e-3), at(200, 0)])!;
  expect(wild.spread).toBeGreaterThan(20 * calm.spread);
});

it('needs two means a minute apart', () => {
  expect(speedLine([at(0, 0)])).toBeNull();
  expect(speedLine([at(0, 0), at(59, 1e-3)])).toBeNull();
});
