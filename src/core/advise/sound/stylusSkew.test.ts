import { expect, it } from 'vitest';
import type { EdgeLag } from '../../measure/edgeLag.ts';
import { stylusSkew } from './stylusSkew.ts';

const DEG = Math.PI / 180;
const error = (r: number) => ({ deg: (r - 90) / 40, size: 0.3 });
/** By the law itself: V = Ω r, w in cm. */
const lag = (radiusMm: number, zetaDeg: number, widthUm: number, chainS: number, band = 0): EdgeLag => {
  const speed = (2 * Math.PI * (100 / 3 / 60) * radiusMm) / 10;
  return {
    band,
    radiusMm,
    speed,
    omega: 2 * Math.PI * 10_000,
    lagS: (widthUm * 1e-4 * Math.tan((zetaDeg - error(radiusMm).deg) * DEG)) / speed + chainS,
    spread: 1e-9,
  };
};

it('is the law’s own, whatever the chain adds to every band', () => {
  for (const [zeta, chain] of [
    [2.5, 0],
    [-1.5, 3e-6],
    [0, -5e-6],
    [4, 15e-6],
    [-3, -20e-6],
  ]) {
    const of = stylusSkew(
      [138, 100, 62].map((r, i) => lag(r, zeta, 25, chain, i)),
      error,
      { um: 25, size: 2 },
    );
    expect(of.found && of.deg).toBeCloseTo(zeta, 4);
    expect(of.found && of.bands).toEqual([0, 1, 2]);
    // its picture: the lags heard, innermost first, and those of the edge that fits, which is the same here
    const [heard, fitted] = of.found ? of.curves : [];
    expect(heard).toMatchObject({ quantity: 'channel-lag', name: 'heard', x: [62, 100, 138], yUnit: 'µs' });
    fitted?.y.forEach((lagUs, i) => {
      expect(Math.abs(lagUs - heard.y[i])).toBeLessThan(1e-4);
    });
  }
});

it('a width that is a guess leaves what it leaves, and says so', () => {
  const lags = [138, 62].map((r) => lag(r, 3, 20, 0));
  const stated = stylusSkew(lags, error, { um: 20, size: 1 });
  const guessed = stylusSkew(lags, error, { um: 20, size: 10 });
  expect(stated.found && guessed.found && guessed.uncertainty > 1.2 * stated.uncertainty).toBe(true);
  expect(guessed.found && guessed.budget.some(({ of }) => of.code === 'contact-width')).toBe(true);
});

it('is none at one groove speed, nor where the tracking error is not known', () => {
  expect(stylusSkew([lag(138, 2, 20, 0), lag(130, 2, 20, 0)], error, { um: 20, size: 1 })).toMatchObject({
    found: false,
    why: { code: 'skew-one-speed' },
  });
  expect(stylusSkew([lag(138, 2, 20, 0)], () => null, { um: 20, size: 1 })).toMatchObject({
    found: false,
    why: { code: 'skew-no-error' },
  });
});
