import { describe, expect, it } from 'vitest';
import { statement } from '../../words/statement.ts';
import type { HeardAngle } from './heardAngles.ts';
import { overhangHeard } from './overhangHeard.ts';

const DEG = Math.PI / 180;
const D = 222;
const theta = (r: number, l: number) => Math.asin((r * r + l * l - D * D) / (2 * r * l)) / DEG;
const angle = (radiusMm: number, value: number, leaks = 0.03): HeardAngle => ({
  band: 0,
  radiusMm,
  value,
  repeatability: 0.02,
  uncertainty: 0.6,
  budget: [
    { of: statement('signal'), size: 0.02, unit: 'deg', share: 0 },
    { of: statement('leaks'), size: leaks, unit: 'deg', share: 0 },
  ],
});
const arm = (l: number, radii: readonly number[]) => radii.map((r) => angle(r, theta(r, l) - 23));
/** Of two radii the length is where θ₁ − θ₂ is what was heard: by bisection. */
function lengthFor(radii: readonly [number, number], difference: number): number {
  let [low, high] = [D + 5, D + 50];
  const of = (l: number) => theta(radii[0], l) - theta(radii[1], l);
  const falls = of(low) > of(high);
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (of(middle) > difference === falls) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

describe('what is doubtful of an overhang heard', () => {
  const radii = [140, 65] as const;
  const [length, cut] = [240, { radiusUncertaintyMm: 0.4, levelUncertaintyDb: 0.5 }];
  const values = radii.map((r) => theta(r, length) - 23);
  const difference = values[0] - values[1];

  it('each source moved by hand, whole', () => {
    const of = overhangHeard(arm(length, radii), D, cut, 0.2)!;
    const moved = (by: number) => lengthFor(radii, difference + by) - length;
    const nudged = (i: number) =>
      lengthFor([radii[0] + (i === 0 ? 0.4 : 0), radii[1] + (i === 1 ? 0.4 : 0)], difference) - length;
    const sizes = {
      signal: Math.hypot(moved(0.02), moved(-0.02)),
      'band-radius': Math.hypot(nudged(0), nudged(1)),
      leaks: Math.hypot(moved(0.03), moved(-0.03)),
      'cut-velocity': Math.abs(moved((difference * 0.5 * Math.LN10) / 20)),
      equalisation: Math.abs(moved((difference * 0.2 * Math.LN10) / 20)),
    };
    expect(Object.fromEntries(of.budget.map(({ of: source, size }) => [source.code, size]))).toEqual(
      Object.fromEntries(Object.entries(sizes).map(([code, size]) => [code, expect.closeTo(size, 4)])),
    );
    expect(of.budget.every(({ unit }) => unit === 'mm')).toBe(true);
    expect(of).toMatchObject({
      overhangMm: expect.closeTo(18, 4),
      effectiveLengthMm: expect.closeTo(240, 4),
      offsetDeg: expect.closeTo(23, 4),
      repeatability: expect.closeTo(sizes.signal, 4),
      uncertainty: expect.closeTo(Math.hypot(...Object.values(sizes)), 4),
    });
  });

  it('without a budget of its own a leak counts as nothing', () => {
    const bare = arm(length, radii).map((one) => ({ ...one, budget: [] }));
    expect(overhangHeard(bare, D, cut, 0.2)!.budget.map(({ of }) => of.code)).not.toContain('leaks');
  });

  it('is none of radii less than 20 mm apart, or of an arm that fits at an end of what is looked through', () => {
    expect(overhangHeard(arm(length, [100, 80]), D, undefined, 0.2)).not.toBeNull();
    expect(overhangHeard(arm(length, [99.9, 80]), D, undefined, 0.2)).toBeNull();
    expect(overhangHeard(arm(length, [100]), D, undefined, 0.2)).toBeNull();
    expect(overhangHeard([], D, undefined, 0.2)).toBeNull();
    for (const more of [-30, -10, 5, 30, 55]) {
      const of = overhangHeard(arm(D + more, [140, 100, 65]), D, undefined, 0.2);
      expect(of?.overhangMm, `${more} mm`).toBeCloseTo(more, 3);
    }
    for (const more of [-45, 70]) expect(overhangHeard(arm(D + more, [140, 100, 75]), D, undefined, 0.2)).toBeNull();
  });

  it('three bands that no arm fits are met by least squares, the twist their mean', () => {
    const off = [0.1, -0.2, 0.05];
    const heard = [140, 100, 65].map((r, i) => angle(r, theta(r, 240) - 23 + off[i]));
    const of = overhangHeard(heard, D, undefined, 0.2)!;
    const cost = (l: number) => {
      const left = heard.map(({ radiusMm, value }) => theta(radiusMm, l) - value);
      const mean = left.reduce((a, b) => a + b) / 3;
      return left.reduce((sum, x) => sum + (x - mean) ** 2, 0);
    };
    for (const by of [-0.01, 0.01]) expect(cost(of.effectiveLengthMm + by)).toBeGreaterThan(cost(of.effectiveLengthMm));
    const left = heard.map(({ radiusMm, value }) => theta(radiusMm, of.effectiveLengthMm) - value);
    expect(of.offsetDeg).toBeCloseTo(left.reduce((a, b) => a + b) / 3, 9);
  });
});
