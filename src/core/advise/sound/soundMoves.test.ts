import { describe, expect, it } from 'vitest';
import { moves, told } from '../told.fixture.ts';
import type { HeardAngle } from './heardAngles.ts';
import type { HeardOverhang } from './overhangHeard.ts';
import { armOf, heightMoves, movesFor } from './soundMoves.ts';

const DEG = Math.PI / 180;
const [L, D, OFFSET] = [239.3, 222, 23];
const arm = { spindleToPivot: D, effectiveLength: L, offsetDeg: OFFSET };
/** The arm as heard: so much longer than intended, turned by so much. */
const heard = (longerMm: number, turnedDeg: number, uncertainty = 0.1): HeardOverhang => ({
  overhangMm: L + longerMm - D,
  effectiveLengthMm: L + longerMm,
  offsetDeg: OFFSET + turnedDeg,
  uncertainty,
  repeatability: 0.05,
  budget: [],
});
const angle = (radiusMm: number, uncertainty = 0.1, value = 0): HeardAngle => ({
  band: 0,
  radiusMm,
  value,
  repeatability: 0.02,
  uncertainty,
  budget: [],
});
const lateral = [angle(120), angle(70, 0.2)];
const law = (r: number, l: number, offset: number) => Math.asin((r * r + l * l - D * D) / (2 * r * l)) / DEG - offset;
const codes = (advice: ReturnType<typeof movesFor>) =>
  moves(advice).map((one) => one.replace(/ [\d.]+ (mm|deg):/, ':'));

it('the arm heard, for the law', () => {
  expect(armOf(heard(1, 0.5))).toEqual({
    kind: 'pivoted',
    spindleToPivot: expect.closeTo(D, 9),
    effectiveLength: L + 1,
    offset: expect.closeTo(23.5 * DEG, 12),
  });
});

describe('every word of direction in slide and twist', () => {
  it.each([
    [2, 'back', 'slide-back-heard', 'forward'],
    [-2, 'forward', 'slide-forward-heard', 'back'],
  ])('a tip %d mm too far out goes %s', (longer, direction, code, way) => {
    const [slide, ...more] = movesFor(heard(longer, 0), lateral, arm);
    // along the slots, which lie at the offset to the arm's line; the turn that comes with it is within doubt
    expect(slide.amount).toBeCloseTo(2 / Math.cos(OFFSET * DEG), 1);
    expect(slide).toMatchObject({ action: 'slide', unit: 'mm', direction, cautions: [{ code: 'move-in-headshell' }] });
    expect(slide.uncertainty).toBeCloseTo(0.1 / Math.cos(OFFSET * DEG), 9);
    expect(slide.reasons!.map((one) => told(one, 1))).toEqual([
      `${code} mm=${Number((slide.amount as number).toFixed(1))}`,
      `tip-off-heard errorMm=2 way=${way}`,
    ]);
    expect(more).toEqual([]);
    const [overhang, first, second] = slide.predicts;
    const sign = Math.sign(longer);
    // moved as told: along the slots, so the arm's line turns a little under it
    const [x, y] = [
      L + longer - sign * slide.amount! * Math.cos(OFFSET * DEG),
      -sign * slide.amount! * Math.sin(OFFSET * DEG),
    ];
    const [after, offset] = [Math.hypot(x, y), OFFSET - Math.atan2(y, x) / DEG];
    expect(overhang).toEqual({ quantity: 'overhang-heard', value: expect.closeTo(after - D, 6), unit: 'mm' });
    expect([first, second]).toEqual(
      [120, 70].map((r) => ({
        quantity: 'tracking-error',
        value: expect.closeTo(law(r, after, offset), 6),
        unit: 'deg',
      })),
    );
  });

  it.each([
    [3, 'anticlockwise-from-above', 'twist-anticlockwise-heard'],
    [-3, 'clockwise-from-above', 'twist-clockwise-heard'],
  ])('a cartridge heard as turned by %d° is turned %s', (turned, direction, code) => {
    const advice = movesFor(heard(0, turned), lateral, arm);
    const twist = advice.find(({ action }) => action === 'twist')!;
    expect(twist.amount).toBeGreaterThan(2.7);
    expect(twist.amount).toBeLessThan(3.3);
    expect(twist).toMatchObject({ unit: 'deg', direction, cautions: [{ code: 'move-in-headshell' }] });
    expect(twist.uncertainty).toBeCloseTo(Math.hypot(0.2, 0.6), 9);
    expect(twist.reasons!.map((one) => told(one))).toEqual([`${code} deg=${Number(twist.amount!.toFixed(4))}`]);
    // both moves together bring the error to that of the arm as intended
    expect(twist.predicts.map(({ value }) => value)).toEqual(
      [120, 70].map((r) => expect.closeTo(law(r, L, OFFSET), 1)),
    );
  });

  it('both where both are off; part of each is called one', () => {
    expect(codes(movesFor(heard(2, 3), lateral, arm))).toEqual([
      'slide back: slide-back-heard tip-off-heard / move-in-headshell',
      'twist anticlockwise-from-above: twist-anticlockwise-heard / move-in-headshell',
    ]);
    expect(codes(movesFor(heard(-1, 0.8, 0.9), [angle(100, 0.2), angle(70)], arm))).toEqual([
      'slide forward: slide-forward-heard tip-off-heard move-part / move-in-headshell',
      'twist anticlockwise-from-above: twist-anticlockwise-heard move-part / move-in-headshell',
    ]);
  });

  it('what is within doubt is left, with its sign', () => {
    for (const longer of [0.3, -0.3]) {
      const [left, ...more] = movesFor(heard(longer, 0, 0.5), lateral, arm);
      expect(more).toEqual([]);
      expect(left).toMatchObject({ action: 'leave-overhang', amount: null, unit: 'mm', direction: null, predicts: [] });
      expect(left.reasons!.map((one) => told(one))).toEqual([
        `leave-overhang-heard errorMm=${longer} uncertaintyMm=0.5`,
      ]);
    }
  });

  it('without an offset to aim at nothing is twisted; an arm that no slide reaches is left without a word', () => {
    const { offsetDeg: _, ...lengthOnly } = arm;
    expect(codes(movesFor(heard(2, 3), lateral, lengthOnly))).toEqual([
      'slide back: slide-back-heard tip-off-heard / move-in-headshell',
    ]);
    expect(movesFor(heard(200, 0), lateral, arm)).toEqual([]);
  });
});

describe('height by the surest vertical angle', () => {
  it('lowers for one too steep and raises for one too flat', () => {
    for (const [value, direction] of [
      [2, 'lower-at-the-pivot'],
      [-2, 'raise-at-the-pivot'],
    ] as const) {
      const [advice, ...more] = heightMoves(
        [angle(100, 1, -value), angle(90, 0.5, value), angle(80, 0.6, -value)],
        arm,
      );
      expect(more).toEqual([]);
      expect(advice).toMatchObject({ action: 'set-arm-height', direction });
      // of an arm of that length and offset
      expect(advice.reasons!.map(({ code }) => code)).toContain('height-bearing-unknown');
    }
    // of two alike the first
    expect(heightMoves([angle(100, 0.5, 2), angle(90, 0.5, -2)], arm)[0].direction).toBe('lower-at-the-pivot');
  });

  it('no angle is further off than 25°', () => {
    for (const value of [25, -25]) expect(heightMoves([angle(100, 1, value)], arm)).toHaveLength(1);
    for (const value of [25.1, -25.1, Number.NaN]) expect(heightMoves([angle(100, 1, value)], arm)).toEqual([]);
    expect(heightMoves([], arm)).toEqual([]);
  });
});
