import { describe, expect, test } from 'vitest';
import { heightAdvice, heightSheet } from './height.ts';

describe('height', () => {
  test('230 mm: 1° is 4.0 mm, 1 mm is 0.25°', () => {
    const sheet = heightSheet({ effectiveLengthMm: 230, setOnThicknessMm: 2, otherThicknessMm: [] });
    expect(sheet.mmPerDeg).toBeCloseTo(4.0147, 4);
    expect(sheet.degPerMm).toBeCloseTo(0.2491, 4);
    expect(sheet.statedDeg).toBeNull();
    expect(sheet.targets.every((target) => target.riseMm === null)).toBe(true);
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

  test('the way into the standard’s 20° to 25°', () => {
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
  test('sign: too steep brings the arm down, too flat up, and the prediction is nought', () => {
    const steep = heightAdvice(2, 0.3, 230);
    expect(steep).toMatchObject({ action: 'set-arm-height', direction: 'lower-at-the-pivot' });
    expect(steep.amount).toBeCloseTo(8.0317, 3);
    expect(steep.predicts[0].value).toBeCloseTo(0, 9);
    expect(heightAdvice(-2, 0.3, 230).direction).toBe('raise-at-the-pivot');
  });

  test('what the measurement cannot tell is left alone', () => {
    expect(heightAdvice(0.2, 0.3, 230)).toMatchObject({ action: 'leave-height', amount: null });
    expect(heightAdvice(0, null, 230).action).toBe('leave-height');
  });

  test('an arm that cannot go so far says what is left', () => {
    const short = heightAdvice(2, 0.3, 230, { down: 4, up: 10 });
    expect(short.amount).toBe(4);
    expect(short.predicts[0].value).toBeCloseTo(1.0036, 3);
    expect(short.why).toContain('wedge');
    expect(() => heightAdvice(Number.NaN, null, 230)).toThrow(/vertical tracking error is NaN/);
  });
});
