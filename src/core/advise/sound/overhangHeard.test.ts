import { expect, it } from 'vitest';
import { statement } from '../../words/statement.ts';
import type { HeardAngle } from './heardAngles.ts';
import { overhangHeard } from './overhangHeard.ts';
import { soundGeometry } from './soundGeometry.ts';

const DEG = Math.PI / 180;
const d = 222;

/** ε by the law, with what is the same at every radius added. */
const angle = (radiusMm: number, length: number, offset: number, value = 0): HeardAngle => ({
  band: 0,
  radiusMm,
  value: Math.asin((radiusMm ** 2 + length ** 2 - d ** 2) / (2 * radiusMm * length)) / DEG - offset + value,
  repeatability: 0.02,
  uncertainty: 0.6,
  budget: [{ of: statement('leaks'), size: 0.02, unit: 'deg', share: 0 }],
});

it('is the arm’s own, whatever adds the same to every radius', () => {
  for (const [length, common] of [
    [239.296, 0],
    [241.3, 0.7],
    [236.9, -1.2],
    [214, 0.3],
  ]) {
    const of = overhangHeard(
      [138, 62].map((r) => angle(r, length, 22.9855, common)),
      d,
      undefined,
      0.2,
    )!;
    expect(of.overhangMm).toBeCloseTo(length - d, 3);
    expect(of.offsetDeg).toBeCloseTo(22.9855 - common, 3);
  }
});

it('moves by 1 mm for 0.56° of difference, and says what the radii and the velocity leave open', () => {
  const at = (more: number) =>
    overhangHeard([angle(138, 239.296, 22.9855, more), angle(62, 239.296, 22.9855)], d, undefined, 0.2)!;
  expect(Math.abs(at(0.1).overhangMm - at(0).overhangMm)).toBeCloseTo(0.1 / 0.56, 1);
  const of = at(0);
  expect(of.repeatability).toBeCloseTo((Math.SQRT2 * 0.02) / 0.56, 1);
  expect(of.budget[0].of.code).toBe('band-radius');
  expect(of.uncertainty).toBeGreaterThan(0.2);
  // ±0.5 mm of radius would leave half of it
  expect(of.budget[0].size).toBeLessThan(0.45);
});

it('is none from radii that lie close, from one band, or where no arm fits', () => {
  expect(overhangHeard([angle(80, 239, 23), angle(70, 239, 23)], d, undefined, 0.2)).toBeNull();
  expect(overhangHeard([angle(80, 239, 23)], d, undefined, 0.2)).toBeNull();
  expect(overhangHeard([angle(138, 239, 23, 60), angle(62, 239, 23)], d, undefined, 0.2)).toBeNull();
});

it('gives nothing where no two-tone band was heard', () => {
  const none = {
    twoTones: [],
    seconds: [],
    lags: [],
    polarity: { found: false as const, why: 'pinch-weak' as const },
    cut: undefined,
  };
  expect(soundGeometry(none, null, 0.2)).toEqual({ findings: [], advice: [], problems: [], curves: [] });
  expect(soundGeometry(undefined, null, 0.2).findings).toEqual([]);
});
