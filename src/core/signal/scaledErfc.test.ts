import { expect, it } from 'vitest';
import { scaledErfc } from './scaledErfc.ts';

// w(z) = erfcx(−jz); Abramowitz and Stegun, table 7.9, from memory; on the axes from e^(x²) erfc(x) and Dawson's integral, table 7.5
it.each([
  [0, 0, 1, 0],
  [1, 0, 0.4275836, 0],
  [2, 0, 0.2553957, 0],
  [0, -1, 0.3678794, 0.6071577],
  [1, -1, 0.3047442, 0.2082189],
  // erfcx(−1) = e (1 + erf 1)
  [-1, 0, 5.0089801, 0],
  [0, -12, 0, 0.0471798],
])('erfcx(%d %d j)', (re, im, x, y) => {
  const of = scaledErfc(re, im);
  expect(of.re).toBeCloseTo(x, 5);
  expect(of.im).toBeCloseTo(y, 5);
});

it('series and asymptote meet, and conjugates give conjugates', () => {
  for (const angle of [-1.5, -0.7, 0, 0.4, 1.5]) {
    const at = (r: number) => scaledErfc(r * Math.cos(angle), r * Math.sin(angle));
    const [inside, outside] = [at(10.954), at(10.955)];
    expect(Math.hypot(inside.re - outside.re, inside.im - outside.im)).toBeLessThan(1e-5);
    const below = scaledErfc(3 * Math.cos(angle), -3 * Math.sin(angle));
    expect(below.re).toBeCloseTo(at(3).re, 12);
    expect(below.im).toBeCloseTo(-at(3).im, 12);
  }
});
