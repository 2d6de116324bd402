import { beforeAll, describe, expect, test } from 'vitest';
import { type Arm, pivotedArm, type TangentialArm } from './arm.ts';
import { errorTangents, harmonicScale, peakOfTangents, peakWeighted, spreadRadii } from './distortion.ts';
import { errorWithinReach } from './law.ts';
import { normalNumbers, quantile } from './random.ts';
import { ownSpan } from './span.ts';
import { type ToleranceBand, toleranceBand, usualTolerances } from './tolerance.ts';

const span = ownSpan(60, 140);
const pivoted = pivotedArm(222, 239.3, 0.401);
const tangential: TangentialArm = { kind: 'tangential', overhang: 1, offset: 0.02 };
const deg = (rad: number): number => (rad * 180) / Math.PI;
const tolerances = { overhang: 0.4, twist: 0.01, spindleToPivot: 0.7 };
const loudness = { peakVelocityCmS: 8, rpm: 45 };
const scale = 100 * harmonicScale(loudness);

/** Each setting off by itself. */
function off(arm: Arm, overhang: number, twist: number, pivot: number): Arm {
  if (arm.kind === 'tangential') return { ...arm, overhang: arm.overhang + overhang, offset: arm.offset + twist };
  const { spindleToPivot: d, effectiveLength: L, offset } = arm;
  return { kind: 'pivoted', spindleToPivot: d + pivot, effectiveLength: L + overhang, offset: offset + twist };
}

const point = (r: number, low: number, high: number) => ({
  radiusMm: r,
  trackingErrorLowDeg: expect.closeTo(deg(low), 9),
  trackingErrorHighDeg: expect.closeTo(deg(high), 9),
  secondHarmonicLowPercent: expect.closeTo((scale * Math.tan(low)) / r, 9),
  secondHarmonicHighPercent: expect.closeTo((scale * Math.tan(high)) / r, 9),
});

describe.each([pivoted, tangential])('the band of an arm: $kind', (arm) => {
  let band: ToleranceBand;
  beforeAll(() => {
    const found = toleranceBand(arm, span, { tolerances, loudness, seed: 4, draws: 150, points: 4 });
    if (!found.found) throw new Error(found.why.code);
    band = found.value;
  });
  const radii = [60, 60 + 80 / 3, 60 + 160 / 3, 140];
  const settings = [
    ['overhang', 0.4, 'mm', (t: number) => off(arm, t, 0, 0)],
    ['twist', 0.01, 'deg', (t: number) => off(arm, 0, t, 0)],
    ['spindle-to-pivot', 0.7, 'mm', (t: number) => off(arm, 0, 0, t)],
  ] as const;
  const own = arm.kind === 'tangential' ? settings.slice(0, 2) : settings;

  test('to first order each setting’s half difference, squares summed', () => {
    expect(band.linear).toEqual(
      radii.map((r) => {
        const halves = own.map(([, t, , set]) => (errorWithinReach(set(t), r) - errorWithinReach(set(-t), r)) / 2);
        const half = Math.sqrt(halves.reduce((sum, x) => sum + x * x, 0));
        const centre = errorWithinReach(arm, r);
        return point(r, centre - half, centre + half);
      }),
    );
  });

  test('by draws the middle 95 of 100, tolerances being two standard deviations', () => {
    const normal = normalNumbers(4);
    const drawn = Array.from({ length: 150 }, () => {
      const [a, b, c] = [normal(), normal(), normal()];
      return off(arm, (a * 0.4) / 2, (b * 0.01) / 2, (c * 0.7) / 2);
    });
    const between = (values: number[]): [number, number] => {
      const sorted = values.sort((x, y) => x - y);
      return [quantile(sorted, 0.025), quantile(sorted, 0.975)];
    };
    expect(band.monteCarlo).toEqual(
      radii.map((r) => {
        const [low, high] = between(drawn.map((one) => Math.tan(errorWithinReach(one, r))));
        return point(r, Math.atan(low), Math.atan(high));
      }),
    );
    const four = spreadRadii(span, 4);
    const peaksDrawn = drawn.map((one) => scale * peakOfTangents(errorTangents(one, four, new Float64Array(4)), four));
    const [low, high] = between(peaksDrawn);
    expect(band.peakDistortionPercent).toEqual({
      asSet: scale * peakWeighted(arm, span),
      median: expect.closeTo((peaksDrawn[74] + peaksDrawn[75]) / 2, 9),
      low: expect.closeTo(low, 9),
      high: expect.closeTo(high, 9),
    });
    expect([band.draws, band.seed]).toEqual([150, 4]);
  });

  test('each setting at its worse end, the largest first', () => {
    const asSet = scale * peakWeighted(arm, span);
    const effects = own
      .map(([setting, t, unit, set]) => {
        const worst = scale * Math.max(peakWeighted(set(t), span), peakWeighted(set(-t), span));
        return {
          setting,
          tolerance: unit === 'deg' ? deg(t) : t,
          unit,
          peakAtWorstPercent: worst,
          risePercent: worst - asSet,
        };
      })
      .sort((a, b) => b.risePercent - a.risePercent);
    expect(band.effects).toEqual(effects);
    expect(band.mattersMost).toBe(effects[0].setting);
  });
});

test('nothing said: half a mm, half a degree and a mm, 25 radii, 1000 draws from seed 1, 10 cm/s at 33⅓', () => {
  const band = toleranceBand(pivoted, span);
  expect(usualTolerances).toEqual({ overhang: 0.5, twist: Math.PI / 360, spindleToPivot: 1 });
  expect(band).toEqual(
    toleranceBand(pivoted, span, {
      tolerances: usualTolerances,
      points: 25,
      draws: 1000,
      seed: 1,
      loudness: { peakVelocityCmS: 10, rpm: 100 / 3 },
    }),
  );
});

test('what is out of bounds is refused by name, what is at them is taken', () => {
  const refused = (options: Parameters<typeof toleranceBand>[2]): string => {
    try {
      return `${toleranceBand(pivoted, span, { draws: 100, points: 2, ...options }).found}`;
    } catch (e) {
      return (e as Error).message;
    }
  };
  const set = (more: Partial<typeof tolerances>) => ({
    tolerances: { overhang: 0, twist: 0, spindleToPivot: 0, ...more },
  });
  expect(refused(set({}))).toBe('true');
  expect(refused(set({ overhang: 10, twist: Math.PI / 18, spindleToPivot: 20 }))).toBe('true');
  for (const [options, message] of [
    [set({ overhang: -0.1 }), 'tolerance of overhang is -0.1 mm'],
    [set({ overhang: 10.1 }), 'tolerance of overhang is 10.1 mm'],
    [set({ twist: -0.1 }), 'tolerance of twist is -0.1 rad'],
    [set({ twist: 0.175 }), 'tolerance of twist is 0.175 rad'],
    [set({ spindleToPivot: -0.1 }), 'tolerance of spindle to pivot is -0.1 mm'],
    [set({ spindleToPivot: 20.1 }), 'tolerance of spindle to pivot is 20.1 mm'],
    [{ draws: 99 }, 'draws is 99;'],
    [{ draws: 100_001 }, 'draws is 100001;'],
    [{ points: 1 }, 'points is 1;'],
    [{ points: 401 }, 'points is 401;'],
    [{ points: 2.5 }, 'points is 2.5;'],
  ] as const) {
    expect(refused(options)).toContain(message);
  }
});
