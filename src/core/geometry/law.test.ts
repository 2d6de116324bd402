import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { degToRad } from '../units/units.ts';
import { say } from '../words/statement.ts';
import { armWithNulls, linearOffset, overhang, pivotedArm, type TangentialArm } from './arm.ts';
import { armFigures, harmonicScale, peaks, reachesSpan } from './distortion.ts';
import { errorWithinReach, nullRadii, reach, secondHarmonic, trackingError } from './law.ts';
import { ownSpan } from './span.ts';

const tangentialArm = (o: number, offset: number): TangentialArm => ({ kind: 'tangential', overhang: o, offset });

const seed = 31;
type Vector = readonly [number, number];

/** Angle from one direction to another, anticlockwise positive (x right, y away from the viewer). */
const turn = (from: Vector, to: Vector): number =>
  Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1]);

/** Tracking error drawn from scratch: where everything is, and which way the groove runs. */
function errorFromDrawing(d: number, L: number, offset: number, r: number): number {
  const pivot: Vector = [d * Math.cos(0.8), d * Math.sin(0.8)]; // to the right and to the rear
  const angle = Math.acos((d * d + r * r - L * L) / (2 * d * r));
  const tip: Vector = [r * Math.cos(0.8 - angle), r * Math.sin(0.8 - angle)]; // in front of the line to the pivot
  const groove: Vector = [tip[1], -tip[0]]; // the record turns clockwise seen from above
  const arm: Vector = [tip[0] - pivot[0], tip[1] - pivot[1]];
  const [c, s] = [Math.cos(-offset), Math.sin(-offset)]; // clockwise by the offset
  const cartridge: Vector = [arm[0] * c - arm[1] * s, arm[0] * s + arm[1] * c];
  return turn(groove, cartridge);
}

describe('signs', () => {
  test('the law is what a drawing from scratch measures: anticlockwise of the groove is positive', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 180, max: 450, noNaN: true }),
        fc.double({ min: -15, max: 30, noNaN: true }),
        fc.double({ min: -0.2, max: 0.6, noNaN: true }),
        fc.double({ min: 40, max: 150, noNaN: true }),
        (d, o, offset, r) => {
          const arm = pivotedArm(d, d + o, offset);
          expect(errorWithinReach(arm, r)).toBeCloseTo(errorFromDrawing(d, d + o, offset, r), 10);
        },
      ),
      { seed, numRuns: 200 },
    );
  });

  test('the groove moves away from the pivot, towards the front of the headshell', () => {
    const [d, L, r] = [222, 239.3, 100];
    const angle = Math.acos((d * d + r * r - L * L) / (2 * d * r));
    const pivot: Vector = [d * Math.cos(0.8), d * Math.sin(0.8)];
    const tip: Vector = [r * Math.cos(0.8 - angle), r * Math.sin(0.8 - angle)];
    const groove: Vector = [tip[1], -tip[0]];
    expect(groove[0] * (tip[0] - pivot[0]) + groove[1] * (tip[1] - pivot[1])).toBeGreaterThan(0);
  });

  test('a clockwise twist raises the offset and lowers the tracking error', () => {
    const arm = pivotedArm(222, 239.3, 0.4);
    const twisted = pivotedArm(222, 239.3, 0.4 + degToRad(1));
    expect(errorWithinReach(twisted, 90)).toBeCloseTo(errorWithinReach(arm, 90) - degToRad(1), 12);
  });

  test('overhang is positive past the spindle; distortion carries the sign of the error', () => {
    expect(overhang(pivotedArm(222, 239.3, 0.4))).toBeCloseTo(17.3, 10);
    expect(overhang(pivotedArm(222, 210, 0))).toBe(-12);
    expect(secondHarmonic(0.02, 100, 10, 100 / 3)).toBeGreaterThan(0);
    expect(secondHarmonic(-0.02, 100, 10, 100 / 3)).toBeLessThan(0);
    // 100 mm at 45 rpm: 2π · 0.75 · 100 mm/s; 8 cm/s of it, times tan 0.02
    expect(secondHarmonic(0.02, 100, 8, 45)).toBeCloseTo((80 * Math.tan(0.02)) / (2 * Math.PI * 0.75 * 100), 12);
  });
});

describe('null radii', () => {
  test('of a tangential arm one, where tip and twist are off the same way', () => {
    const arm = (overhang: number, offset: number) => ({ kind: 'tangential', overhang, offset }) as const;
    expect(nullRadii(arm(2, 0.02))).toEqual([2 / Math.sin(0.02)]);
    for (const none of [arm(-2, 0.02), arm(2, -0.02), arm(0, 0.02), arm(2, 0), arm(0, 0)])
      expect(nullRadii(none)).toEqual([]);
  });

  test('no digits are lost where one of them is next to nothing', () => {
    // n₁ n₂ = L² − d², n₁ + n₂ = 2 L sin φ
    const [d, L, offset] = [222, 222 + 1e-7, 0.4];
    const nulls = nullRadii(pivotedArm(d, L, offset));
    expect(nulls).toHaveLength(2);
    expect(nulls[0]).toBeLessThan(nulls[1]);
    expect((nulls[0] * nulls[1]) / ((L - d) * (L + d))).toBeCloseTo(1, 12);
    expect(Math.abs(nulls[0] + nulls[1] - 2 * L * Math.sin(offset))).toBeLessThan(1e-10);
    // turned the other way and underhung: of two of either sign the small one is positive
    const short = 222 - 1e-7;
    const [only, ...more] = nullRadii(pivotedArm(d, short, -0.4));
    expect(more).toEqual([]);
    const product = (short - d) * (short + d);
    expect(only / (product / (2 * short * Math.sin(-0.4)))).toBeCloseTo(1, 8);
  });

  test('two, one, none', () => {
    const made = armWithNulls(222, 186.9, 7978.6);
    if (!made.found) throw new Error(made.why.code);
    expect(nullRadii(made.value)[0]).toBeCloseTo(65.99, 1);
    expect(linearOffset(made.value)).toBeCloseTo(93.45, 10);
    expect(nullRadii(pivotedArm(222, 210, 0))).toEqual([Math.sqrt(222 ** 2 - 210 ** 2)]);
    expect(nullRadii(pivotedArm(222, 239.3, 0.1))).toEqual([]);
    expect(nullRadii(pivotedArm(222, 239.3, 0))).toEqual([]);
  });

  test('tangential: none singled out where all are null, one where line and twist balance', () => {
    expect(nullRadii(tangentialArm(0, 0))).toEqual([]);
    expect(nullRadii(tangentialArm(2, Math.asin(2 / 80)))[0]).toBeCloseTo(80, 10);
    expect(errorWithinReach(tangentialArm(0, 0), 60)).toBe(0);
  });

  test('a tangential arm is the limit of a pivoted one', () => {
    const long = pivotedArm(19_990, 19_992, 0.01);
    const straight = tangentialArm(2, 0.01);
    for (const r of [60, 100, 146]) {
      // what is left is r / 2L
      expect(Math.abs(errorWithinReach(long, r) - errorWithinReach(straight, r))).toBeLessThan(
        (1.01 * r) / (2 * 19_992),
      );
    }
  });
});

describe('the error at one radius', () => {
  const arm = pivotedArm(222, 239.3, 0.4);

  test('where the tip reaches it is that of the law, at the two edges of its reach as well', () => {
    // the cosine rule in the triangle of spindle, pivot and tip: 60 mm of the spindle
    const sine = (60 ** 2 + 239.3 ** 2 - 222 ** 2) / (2 * 60 * 239.3);
    const found = trackingError(arm, 60);
    expect(found.found).toBe(true);
    expect(found.found && found.value).toBeCloseTo(Math.asin(sine) - 0.4, 12);
    const { inner, outer } = reach(arm);
    // at either edge arm and radius lie in one line, the cartridge along or against it
    expect(trackingError(arm, inner)).toMatchObject({ found: true });
    expect(trackingError(arm, outer)).toMatchObject({ found: true });
    const edge = trackingError(arm, inner);
    expect(edge.found && edge.value).toBeCloseTo(Math.PI / 2 - 0.4, 6);
  });

  test('a hair beyond either edge there is none, and the reason says which', () => {
    const { inner, outer } = reach(arm);
    expect(trackingError(arm, inner - 0.001)).toMatchObject({ found: false, why: { code: 'groove-too-near' } });
    expect(trackingError(arm, outer + 0.001)).toMatchObject({ found: false, why: { code: 'groove-too-far' } });
  });
});

describe('what cannot be', () => {
  test('misuse throws, naming argument, value and bounds', () => {
    expect(() => pivotedArm(Number.NaN, 239, 0.4)).toThrow(
      'spindle to pivot is NaN mm; from 50 to 20000 mm was expected',
    );
    expect(() => pivotedArm(222, 239, 2)).toThrow('offset is 2 rad');
    expect(() => trackingError(pivotedArm(222, 239, 0.4), Number.POSITIVE_INFINITY)).toThrow(
      'groove radius is Infinity mm',
    );
  });

  test('out of reach is a value with its reason', () => {
    const arm = pivotedArm(222, 300, 0.4);
    const answer = trackingError(arm, 60);
    expect(answer).toEqual({
      found: false,
      why: { code: 'groove-too-near', values: { radiusMm: 60, leastMm: 78 } },
    });
    expect(reach(arm).inner).toBe(78);
    expect(reachesSpan(arm, ownSpan(60, 146)).found).toBe(false);
    expect(armFigures(arm, ownSpan(60, 146)).found).toBe(false);
    expect(armWithNulls(60, 186.9, 7978).found).toBe(false);
    expect(armWithNulls(60, 10, -7978).found).toBe(false);
  });

  test('no NaN and no Infinity leaves, over arms of every kind', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 1000, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 1, max: 80, noNaN: true }),
        (d, o, offset, inner, width) => {
          const figures = armFigures(pivotedArm(d, Math.max(51, d + o), offset), ownSpan(inner, inner + width));
          if (!figures.found) {
            expect(say(figures.why).length).toBeGreaterThan(20);
            return;
          }
          for (const value of Object.values(figures.value).flat()) {
            if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
          }
        },
      ),
      { seed, numRuns: 400 },
    );
  });
});

test('peaks: no radius between them has a larger weighted error (brute force)', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 180, max: 450, noNaN: true }),
      fc.double({ min: -20, max: 30, noNaN: true }),
      fc.double({ min: -0.1, max: 0.5, noNaN: true }),
      (d, o, offset) => {
        const arm = pivotedArm(d, d + o, offset);
        const span = ownSpan(60, 146);
        const most = Math.max(...peaks(arm, span).map((peak) => Math.abs(peak.weighted)));
        let brute = 0;
        for (let r = 60; r <= 146; r += 0.05) brute = Math.max(brute, Math.abs(Math.tan(errorWithinReach(arm, r)) / r));
        expect(most).toBeGreaterThanOrEqual(brute * (1 - 1e-12));
        expect(most).toBeLessThanOrEqual(brute * (1 + 1e-4));
      },
    ),
    { seed, numRuns: 100 },
  );
});

describe('what second harmonic is stated for', () => {
  test('no record is cut over 100 cm/s or turns over 120 times a minute: refused by name; the bounds themselves are taken', () => {
    expect(harmonicScale({ peakVelocityCmS: 100, rpm: 120 })).toBeGreaterThan(0);
    expect(harmonicScale({ peakVelocityCmS: 0.01, rpm: 8 })).toBeGreaterThan(0);
    for (const [peakVelocityCmS, rpm, name] of [
      [100.5, 33.3, 'peak velocity'],
      [0.009, 33.3, 'peak velocity'],
      [10, 120.5, 'speed'],
      [10, 7.9, 'speed'],
    ] as const) {
      expect(() => harmonicScale({ peakVelocityCmS, rpm })).toThrow(name);
    }
  });
});
