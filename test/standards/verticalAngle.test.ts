/**
 * Vertical tracking error against the frequency modulation that it makes: Δf/f = (v/V)(tan α_play − tan α_cut), peak. Values computed by shear of the groove
 * (another program).
 */
import { expect, it } from 'vitest';
import { verticalAngles } from '../../src/core/advise/sound/heardAngles.ts';
import type { SolvedTwoTone } from '../../src/core/measure/twoTones.ts';

const V_CM_S = 5;
/** cm/s at 33⅓ */
const grooveSpeed = (radiusMm: number): number => (2 * Math.PI * radiusMm) / 10 / 1.8;

/** radius mm; cut and playing angle, deg; Δf/f in % */
const table: readonly (readonly [number, number, number, number])[] = [
  [60.325, 15, 18, 1.353],
  [60.325, 15, 25, 4.71],
  [60.325, 15, 30, 7.347],
  [63.5, 15, 18, 1.285],
  [63.5, 15, 25, 4.474],
  [63.5, 15, 30, 6.979],
  [57.5, 15, 18, 1.419],
  [57.5, 15, 25, 4.941],
  [57.5, 15, 30, 7.708],
];

const read = (radiusMm: number, percent: number, sign: 1 | -1) => {
  const band = { band: { index: 0 }, radiusMm, vertical: true, leaksKnown: true, speed: grooveSpeed(radiusMm) };
  // motion along the axis reads the groove at τ + k·D: its velocity shifts the pitch by k·v
  const solution = { k: (-sign * percent) / 100 / V_CM_S, kVariance: 0, kPerRadian: 0 };
  const cut = { verticalAngleDeg: 15 };
  return verticalAngles([{ ...band, solution } as unknown as SolvedTwoTone], sign, cut, 0.2)[0];
};

it.each(table)(
  'at %f mm a groove cut at %f° and played at %f° is modulated by %f %%',
  (radiusMm, cut, play, percent) => {
    for (const sign of [1, -1] as const) {
      expect(read(radiusMm, percent, sign).value).toBeCloseTo(play - cut, 2);
    }
  },
);
