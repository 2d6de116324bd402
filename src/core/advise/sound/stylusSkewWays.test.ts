import { describe, expect, it } from 'vitest';
import type { EdgeLag } from '../../measure/edgeLag.ts';
import { speedAt } from './heard.fixture.ts';
import { stylusSkew, USUAL_WIDTH } from './stylusSkew.ts';

const DEG = Math.PI / 180;
const error = (r: number) => ({ deg: (r - 90) / 40, size: 0.3 });
const lag = (radiusMm: number, zetaDeg: number, widthUm = 20, chainS = 0, band = 0): EdgeLag => ({
  band,
  radiusMm,
  speed: speedAt(radiusMm),
  omega: 2 * Math.PI * 10_000,
  lagS: (widthUm * 1e-4 * Math.tan((zetaDeg - error(radiusMm).deg) * DEG)) / speedAt(radiusMm) + chainS,
  spread: 2e-8,
});
const ask = (lags: readonly EdgeLag[], width = { um: 20, size: 1 }, at: Parameters<typeof stylusSkew>[1] = error) => {
  const of = stylusSkew(lags, at, width);
  if (!of.found) throw new Error(of.why.code);
  return of;
};

describe('skew of the tip’s edge', () => {
  it.each([3, -3, 0.5])('%d°, whole, by hand for two bands', (zeta) => {
    const radii = [138, 62];
    const of = ask(radii.map((r, i) => lag(r, zeta, 20, 2e-6, 7 - i)));
    expect(of.deg).toBeCloseTo(zeta, 5);
    expect(of.bands).toEqual([7, 6]);
    const w = 20e-4;
    // two bands fix angle and chain: ζ = (V₂ y₁ − V₁ y₂)/(V₂ − V₁), each y as unsure as its lag and what the cut turns it by
    const [first, second] = radii.map(speedAt);
    const spread = Math.hypot(2e-8, 0.005 / (2 * Math.PI * 10_000)) / w;
    const signal = (2 * spread * Math.hypot(second * first, first * second)) / (first - second) / DEG;
    expect(of.repeatability).toBeCloseTo(signal, 6);
    // the error as heard turns the edge with it, by as much at both
    const mean = radii.reduce((sum, r) => sum + error(r).deg / 2, 0);
    expect(Object.fromEntries(of.budget.map(({ of: source, size }) => [source.code, size]))).toEqual({
      signal: expect.closeTo(signal, 6),
      'tracking-error-heard': expect.closeTo(0.3, 3),
      'contact-width': expect.closeTo(Math.abs(zeta - mean) / 20, 4),
    });
    expect(of.budget.every(({ unit }) => unit === 'deg')).toBe(true);
    expect(of.uncertainty).toBeCloseTo(Math.hypot(...of.budget.map(({ size }) => size)), 9);
  });

  it('its picture, whole: the lags in µs, innermost first', () => {
    const lags = [138, 62, 100].map((r) => lag(r, 2, 20, 1e-6));
    const [heard, fitted, ...more] = ask(lags).curves;
    expect(more).toEqual([]);
    const common = { quantity: 'channel-lag', x: [62, 100, 138], xUnit: 'mm', yUnit: 'µs' };
    const y = [1, 2, 0].map((i) => expect.closeTo(1e6 * lags[i].lagS, 4));
    expect(heard).toEqual({ ...common, name: 'heard', y });
    expect(fitted).toEqual({ ...common, name: 'the edge that fits', y });
  });

  it('groove speeds must differ by 1.3 times, in either order', () => {
    const found = (radii: number[]) =>
      stylusSkew(
        radii.map((r) => lag(r, 2)),
        error,
        USUAL_WIDTH,
      ).found;
    expect(found([130.01, 100])).toBe(true);
    expect(found([100, 130.01])).toBe(true);
    expect(found([129.9, 100])).toBe(false);
    expect(found([100])).toBe(false);
  });

  it('bands without a known error drop out, and none may be left', () => {
    const at = (r: number) => (r === 100 ? null : error(r));
    const of = ask(
      [138, 100, 62].map((r, i) => lag(r, 2, 20, 0, i)),
      { um: 20, size: 1 },
      at,
    );
    expect(of.bands).toEqual([0, 2]);
    expect(of.curves[0].x).toEqual([62, 138]);
    expect(stylusSkew([lag(138, 2), lag(100, 2)], at, USUAL_WIDTH)).toMatchObject({ why: { code: 'skew-one-speed' } });
    expect(stylusSkew([], error, USUAL_WIDTH)).toMatchObject({ found: false, why: { code: 'skew-no-error' } });
  });

  it('a band with more noise counts for less', () => {
    const lags = [138, 100, 62].map((r) => lag(r, 2));
    const off = (i: number, spread: number) =>
      ask(lags.map((one, j) => (i === j ? { ...one, lagS: one.lagS + 1e-6, spread } : one))).deg - 2;
    for (const i of [0, 1, 2]) expect(Math.abs(off(i, 1e-5))).toBeLessThan(0.1 * Math.abs(off(i, 2e-8)));
  });
});
