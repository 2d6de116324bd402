import { describe, expect, test } from 'vitest';
import { forceAtRise } from '../mechanics/forceAndHeight.ts';
import { angleTargets, type HeightArm, heightAdvice, heightSheet } from './height.ts';
import { told } from './told.fixture.ts';

const DEG = Math.PI / 180;
const L = 230;
const straight: HeightArm = { effectiveLengthMm: L, offsetDeg: 0 };
const offset: HeightArm = { effectiveLengthMm: L, offsetDeg: 23 };
const line: HeightArm = { ...offset, squareTo: 'arm-line' };
const own: HeightArm = { ...offset, squareTo: 'cartridge' };

/** mm of rise for an angle: by the bearing square to the arm's line, and to the cartridge. */
const byLine = (deg: number) => L * Math.tan((deg * DEG) / Math.cos(23 * DEG));
const byOwn = (deg: number) => L * Math.cos(23 * DEG) * Math.tan(deg * DEG);
const of = (value: number) => Number(value.toFixed(4)) + 0;
const tiltOf = (mm: number) => (Math.atan(mm / L) / DEG) * Math.sin(23 * DEG);

const words = (...of: Parameters<typeof heightAdvice>) => (heightAdvice(...of).reasons ?? []).map((one) => told(one));

describe('every word of direction in the height, for an angle either way', () => {
  test.each([
    [1, 'lower-at-the-pivot', 'steeper', 'lower', 'anticlockwise'],
    [-1, 'raise-at-the-pivot', 'flatter', 'raise', 'clockwise'],
  ] as const)('%d°', (error, direction, way, does, turn) => {
    const mean = (byLine(1) + byOwn(1)) / 2;
    const tilt = { line: tiltOf(byLine(1)), mean: tiltOf(mean), straight: 0 };
    const table: [HeightArm, number, string][] = [
      [straight, L * Math.tan(DEG), 'height-no-tilt'],
      [line, byLine(1), `height-tilts tilt=${of(tilt.line)} way=${turn}`],
      [own, byOwn(1), 'height-no-tilt'],
      [offset, mean, `height-bearing-unknown tilt=${of(tilt.mean)} way=${turn}`],
      [{ effectiveLengthMm: L }, L * Math.tan(DEG), 'height-offset-unknown'],
    ];
    for (const [arm, mm, bearing] of table) {
      const { reasons, why, ...advice } = heightAdvice(error, 0.3, arm);
      expect(words(error, 0.3, arm)).toEqual([
        `height-move off=1 way=${way} does=${does} mm=${of(mm)}`,
        bearing,
        'height-recheck',
      ]);
      expect(why).not.toBe('');
      expect(advice).toMatchObject({
        action: 'set-arm-height',
        amount: expect.closeTo(mm, 9),
        unit: 'mm',
        direction,
        predicts: [{ quantity: 'vertical-tracking-error', unit: 'deg', value: expect.closeTo(0, 1) }],
        cautions: [{ code: 'caution-base' }],
      });
    }
  });

  test('a move that stops at the end of its travel leaves the rest with its sign, whichever end it is', () => {
    const slack = { down: 2, up: 3 };
    for (const [error, mm] of [
      [1.2, 2],
      [-1.2, 3],
    ]) {
      const advice = heightAdvice(error, 0.3, straight, slack);
      const left = 1.2 - Math.atan(mm / L) / DEG;
      expect(advice.amount).toBe(mm);
      expect(advice.predicts[0].value).toBeCloseTo(Math.sign(error) * left, 9);
      expect(words(error, 0.3, straight, slack)[1]).toBe(`height-end-of-travel mm=${mm} left=${of(left)}`);
    }
    // room to spare is not told
    expect(words(1.2, 0.3, straight, { down: 20, up: 0 })).toHaveLength(3);
    expect(heightAdvice(1.2, 0.3, straight, { down: 0, up: 0 }).amount).toBe(0);
    expect(() => heightAdvice(1, 0.3, straight, { down: -1, up: 4 })).toThrow(/way left in the arm’s height is -1/);
  });

  test('more than height cures is capped and said; where travel ends before, that alone is said', () => {
    const cap = L * Math.tan(1.5 * DEG);
    for (const [error, sign] of [
      [4, 1],
      [-4, -1],
    ]) {
      expect(heightAdvice(error, 0.3, straight).amount).toBeCloseTo(cap, 9);
      expect(heightAdvice(error, 0.3, straight).predicts[0].value).toBeCloseTo(2.5 * sign, 9);
      expect(words(error, 0.3, straight).map((one) => one.split(' ')[0])).toEqual([
        'height-move',
        'height-capped',
        'height-no-tilt',
        'height-recheck',
      ]);
      expect(words(error, 0.3, straight)[1]).toBe('height-capped most=1.5 left=2.5');
    }
    expect(words(4, 0.3, straight, { down: 2, up: 2 }).map((one) => one.split(' ')[0])).toEqual([
      'height-move',
      'height-end-of-travel',
      'height-no-tilt',
      'height-recheck',
    ]);
    expect(words(1.5, 0.3, straight)).toHaveLength(3);
  });

  test('a part is told as a part, but not where the cap cut it', () => {
    // 2·0.5 − 1.645·0.4 = 0.342°
    const part = heightAdvice(0.5, 0.4, straight);
    expect(part.amount).toBeCloseTo(L * Math.tan(0.342 * DEG), 9);
    expect(words(0.5, 0.4, straight)[1]).toBe('move-part');
    expect(heightAdvice(-0.5, 0.4, straight).predicts[0].value).toBeCloseTo(-0.158, 6);
    expect(words(3, 2, straight).map((one) => one.split(' ')[0])).not.toContain('move-part');
    expect(words(1, 0.3, straight).map((one) => one.split(' ')[0])).not.toContain('move-part');
  });

  test('what is within the uncertainty is left, and the angle stays as foretold', () => {
    for (const error of [0.3, -0.3, 0]) {
      expect(heightAdvice(error, 0.3, offset)).toMatchObject({
        action: 'leave-height',
        amount: null,
        unit: 'mm',
        direction: null,
        predicts: [{ quantity: 'vertical-tracking-error', value: error, unit: 'deg' }],
        reasons: [{ code: 'height-leave', values: { within: 0.3 } }],
      });
    }
    expect(heightAdvice(0, null, straight).reasons).toEqual([{ code: 'height-leave', values: { within: 0 } }]);
    expect(heightAdvice(0.31, 0.3, straight).action).toBe('set-arm-height');
    for (const error of [-25, 25]) expect(heightAdvice(error, null, straight).action).toBe('set-arm-height');
    for (const error of [-25.1, 25.1]) expect(() => heightAdvice(error, null, straight)).toThrow(RangeError);
  });

  test('the ± is null without one, else what the angle and the bearing leave of the move', () => {
    expect(heightAdvice(1, null, straight).uncertainty).toBeNull();
    const half = (byLine(1) - byOwn(1)) / 2;
    const asked = (deg: number) => (byLine(deg) + byOwn(deg)) / 2;
    const open = Math.max(asked(1) - asked(0.7), asked(1.3) - asked(1));
    for (const error of [1, -1]) {
      expect(heightAdvice(error, 0.3, offset).uncertainty).toBeCloseTo(Math.hypot(open, half), 9);
      expect(heightAdvice(error, 0.3, line).uncertainty).toBeCloseTo(byLine(1.3) - byLine(1), 9);
    }
    // more than one would need to move is never less than nothing
    expect(heightAdvice(0.5, 0.49, straight).uncertainty).toBeCloseTo(
      L * (Math.tan(0.99 * DEG) - Math.tan(0.5 * DEG)),
      9,
    );
    // beyond what height cures nothing is open on that side
    expect(heightAdvice(1.4, 0.5, straight).uncertainty).toBeCloseTo(
      L * (Math.tan(1.4 * DEG) - Math.tan(0.9 * DEG)),
      9,
    );
  });
});

describe('the sheet of an arm', () => {
  const ask = { ...offset, setOnThicknessMm: 1.6, otherThicknessMm: [1.2, 1.6, 2.6] };
  const pitch = (mm: number) =>
    (Math.atan(mm / L) * Math.cos(23 * DEG) + Math.atan(mm / (L * Math.cos(23 * DEG)))) / 2 / DEG;

  test('whole, against the closed forms', () => {
    const arm = { force: 0.018, effectiveLength: L, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 8 };
    const sheet = heightSheet({ ...ask, arm, verticalAngleDeg: 27, riseMm: -2 });
    const stated = 27 - pitch(2);
    const rise = (deg: number) => Math.sign(deg) * ((byLine(Math.abs(deg)) + byOwn(Math.abs(deg))) / 2);
    expect(sheet).toEqual({
      degPerMm: expect.closeTo(pitch(1), 9),
      mmPerDeg: expect.closeTo((byLine(1) + byOwn(1)) / 2, 9),
      bearings: [
        {
          squareTo: 'arm-line',
          mmPerDeg: expect.closeTo(byLine(1), 9),
          tiltPerDeg: expect.closeTo(Math.tan(23 * DEG), 9),
        },
        { squareTo: 'cartridge', mmPerDeg: expect.closeTo(byOwn(1), 9), tiltPerDeg: 0 },
      ],
      thickness: [1.2, 1.6, 2.6].map((mm) => ({
        thicknessMm: mm,
        angleDeg: expect.closeTo(-pitch(mm - 1.6), 9),
        riseMm: mm - 1.6,
        forceMn: expect.closeTo(1e3 * (forceAtRise(arm, mm - 1.6) - 0.018), 9),
      })),
      statedDeg: expect.closeTo(stated, 9),
      targets: [
        { ...angleTargets[0], riseMm: expect.closeTo(rise(25 - stated), 9) },
        { ...angleTargets[1], riseMm: expect.closeTo(rise(15 - stated), 9) },
        { ...angleTargets[2], riseMm: null },
      ],
    });
  });

  test('an angle under its target asks for a rise, one over it for a fall, one inside for nothing; level without one', () => {
    const rises = (verticalAngleDeg: number) =>
      heightSheet({ ...straight, setOnThicknessMm: 2, otherThicknessMm: [], verticalAngleDeg }).targets.map((t) =>
        t.riseMm === null ? null : Math.sign(t.riseMm),
      );
    expect(rises(14)).toEqual([1, 1, null]);
    expect(rises(15)).toEqual([1, 0, null]);
    expect(rises(20)).toEqual([0, -1, null]);
    expect(rises(25)).toEqual([0, -1, null]);
    expect(rises(26)).toEqual([-1, -1, null]);
  });

  test('the kind of bearing is asked for only where it makes a difference', () => {
    const kinds = (arm: HeightArm) => heightSheet({ ...ask, ...arm }).bearings.map(({ squareTo }) => squareTo);
    expect(kinds(straight)).toEqual(['arm-line']);
    expect(kinds({ ...straight, squareTo: 'cartridge' })).toEqual(['cartridge']);
    expect(kinds(offset)).toEqual(['arm-line', 'cartridge']);
    expect(kinds(line)).toEqual(['arm-line']);
    expect(kinds(own)).toEqual(['cartridge']);
  });

  test.each([
    [{ setOnThicknessMm: 0.19 }, /record’s thickness/],
    [{ setOnThicknessMm: 10.1 }, /record’s thickness/],
    [{ otherThicknessMm: [0.19] }, /another record’s thickness/],
    [{ otherThicknessMm: [10.1] }, /another record’s thickness/],
    [{ verticalAngleDeg: -0.1 }, /vertical tracking angle/],
    [{ verticalAngleDeg: 60.1 }, /vertical tracking angle/],
  ])('refuses %o by name', (odd, words) => {
    expect(() => heightSheet({ ...ask, ...odd })).toThrow(words);
  });
});
