import { describe, expect, test } from 'vitest';
import { heightAdvice, heightSheet } from './height.ts';

describe('height', () => {
  test('230 mm: 1° is 4.0 mm, 1 mm is 0.25°', () => {
    const sheet = heightSheet({ effectiveLengthMm: 230, setOnThicknessMm: 2, otherThicknessMm: [] });
    expect(sheet.mmPerDeg).toBeCloseTo(4.0147, 4);
    expect(sheet.degPerMm).toBeCloseTo(0.2491, 4);
    expect(sheet.bearings).toHaveLength(1);
    expect(sheet.statedDeg).toBeNull();
    expect(sheet.targets.every((target) => target.riseMm === null)).toBe(true);
  });

  test('an offset arm: both kinds of bearing where it is not known which', () => {
    const ask = { effectiveLengthMm: 230, offsetDeg: 23, setOnThicknessMm: 2, otherThicknessMm: [] };
    const { bearings, mmPerDeg } = heightSheet(ask);
    expect(bearings.map(({ squareTo }) => squareTo)).toEqual(['arm-line', 'cartridge']);
    expect(bearings[0].mmPerDeg).toBeCloseTo(4.36, 2);
    expect(bearings[0].tiltPerDeg).toBeCloseTo(0.4245, 3);
    expect(bearings[1].mmPerDeg).toBeCloseTo(3.7, 2);
    expect(bearings[1].tiltPerDeg).toBe(0);
    expect(mmPerDeg).toBeCloseTo((bearings[0].mmPerDeg + bearings[1].mmPerDeg) / 2, 9);
    expect(heightSheet({ ...ask, squareTo: 'cartridge' }).bearings).toHaveLength(1);
  });

  test('a thicker record flattens the angle and asks for as much more height', () => {
    const { thickness } = heightSheet({ effectiveLengthMm: 239, setOnThicknessMm: 1.6, otherThicknessMm: [1.2, 2.6] });
    expect(thickness[1].angleDeg).toBeCloseTo(-0.2397, 4);
    expect(thickness[1].riseMm).toBeCloseTo(1, 12);
    expect(thickness[0].angleDeg).toBeGreaterThan(0);
    expect(thickness[0].forceMn).toBeNull();
  });

  test('an arm with its weight slung low presses harder on a thicker record', () => {
    const arm = { force: 0.018, effectiveLength: 239, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 8 };
    const { thickness } = heightSheet({ effectiveLengthMm: 239, setOnThicknessMm: 1.6, otherThicknessMm: [2.6], arm });
    expect(thickness[0].forceMn).toBeGreaterThan(0);
  });

  test('the way into the 20° +5/−0 of IEC 60098:2020, 6.1', () => {
    const ask = (verticalAngleDeg: number, riseMm = 0) =>
      heightSheet({ effectiveLengthMm: 230, setOnThicknessMm: 2, otherThicknessMm: [], verticalAngleDeg, riseMm });
    const rise = (angle: number, up = 0) => ask(angle, up).targets.find((t) => t.name === 'standard')?.riseMm;
    expect(rise(22)).toBe(0);
    expect(rise(18)).toBeCloseTo(8.0317, 3);
    expect(rise(27)).toBeLessThan(0);
    expect(ask(22, 4.0147).statedDeg).toBeCloseTo(23, 4);
  });
});

describe('a measured angle', () => {
  const straight = { effectiveLengthMm: 230, offsetDeg: 0 };
  const offset = { effectiveLengthMm: 230, offsetDeg: 23 };

  test('sign: too steep brings the arm down, too flat up, and the prediction is zero', () => {
    const steep = heightAdvice(1, 0.3, straight);
    expect(steep).toMatchObject({ action: 'set-arm-height', direction: 'lower-at-the-pivot' });
    expect(steep.amount).toBeCloseTo(4.0147, 3);
    expect(steep.predicts[0].value).toBeCloseTo(0, 9);
    expect(steep.why).toContain('No tilt comes of it.');
    expect(heightAdvice(-1, 0.3, straight).direction).toBe('raise-at-the-pivot');
  });

  test('both kinds of bearing: 4.36 mm with 0.42° of tilt, 3.70 mm with none; not known, the mean with both told', () => {
    const line = heightAdvice(-1, 0.3, { ...offset, squareTo: 'arm-line' });
    expect(line.amount).toBeCloseTo(4.36, 2);
    expect(line.why).toContain('tilts the cartridge 0.42° clockwise');
    const own = heightAdvice(1, 0.3, { ...offset, squareTo: 'cartridge' });
    expect(own.amount).toBeCloseTo(3.7, 2);
    expect(own.why).toContain('No tilt');
    const either = heightAdvice(1, 0.3, offset);
    expect(either.amount).toBeCloseTo((4.36 + 3.7) / 2, 2);
    expect(either.why).toContain('It is not known what the bearing is square to');
    expect(either.why).toContain('anticlockwise');
    // half of what lies between the two stands in the ±
    expect(either.uncertainty ?? 0).toBeGreaterThan(Math.hypot(0.3 * 4, 0.32));
    expect(heightAdvice(1, 0.3, { effectiveLengthMm: 230 }).why).toContain('offset angle is not known');
    for (const advice of [line, own, either]) expect(advice.why).toMatch(/rake turns.*read the tilt again/);
  });

  test('height is asked for 1.5° at most; the rest is said, with why', () => {
    const far = heightAdvice(4, 0.3, straight);
    expect(far.amount).toBeCloseTo(6.0227, 3);
    expect(far.predicts[0].value).toBeCloseTo(2.5, 9);
    expect(far.why).toMatch(/1.5° at most: .*off level.*2.5° need a wedge under the cartridge, or another cartridge/);
    expect(heightAdvice(1.5, 0.3, straight).why).not.toContain('wedge');
  });

  test('the ± is of the move asked for: none where every angle within the uncertainty asks for all that height cures', () => {
    expect(heightAdvice(4.7, 3.1, straight).uncertainty).toBeCloseTo(0, 9);
    // 2 − 1.5 = 0.5° may be all that is wanted: 1° less than asked for
    expect(heightAdvice(2, 1.5, straight).uncertainty).toBeCloseTo(6.0227 - 2.0072, 3);
    expect(heightAdvice(-1, 0.3, straight).uncertainty).toBeCloseTo(0.3 * 4.0147, 2);
  });

  test('what the measurement cannot tell is left alone', () => {
    expect(heightAdvice(0.2, 0.3, straight)).toMatchObject({ action: 'leave-height', amount: null });
    expect(heightAdvice(3, 3.1, straight)).toMatchObject({ action: 'leave-height', amount: null });
    expect(heightAdvice(0, null, straight).action).toBe('leave-height');
  });

  test('an arm that cannot go so far says what is left', () => {
    const short = heightAdvice(1.4, 0.3, straight, { down: 4, up: 10 });
    expect(short.amount).toBe(4);
    expect(short.predicts[0].value).toBeCloseTo(0.4036, 3);
    expect(short.why).toContain('a wedge of 0.4°');
    expect(() => heightAdvice(Number.NaN, null, straight)).toThrow(/vertical tracking error is NaN/);
  });
});
