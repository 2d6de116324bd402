import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { degToRad } from '../units/units.ts';
import { linearOffset, pivotedArm } from './arm.ts';
import { armAfterMove, moveBetween, straightMount } from './slide.ts';

const seed = 47;
const arms = fc
  .tuple(
    fc.double({ min: 180, max: 450, noNaN: true }),
    fc.double({ min: -15, max: 25, noNaN: true }),
    fc.double({ min: -0.1, max: 0.5, noNaN: true }),
  )
  .map(([d, o, offset]) => pivotedArm(d, d + o, offset));
const slides = fc.double({ min: -8, max: 8, noNaN: true });
const twists = fc.double({ min: -0.1, max: 0.1, noNaN: true });

describe(`slide and twist in the shell (seed ${seed})`, () => {
  test('forward lengthens the arm; clockwise raises the offset', () => {
    const arm = pivotedArm(222, 239.3, 0.4);
    expect(armAfterMove(arm, straightMount(arm), { slide: 1, twist: 0 }).effectiveLength).toBeGreaterThan(
      arm.effectiveLength,
    );
    expect(armAfterMove(arm, straightMount(arm), { slide: 0, twist: 0.01 }).offset).toBeGreaterThan(arm.offset);
  });

  test('by hand: 5 mm along slots at 23°, then measured with a ruler and a square', () => {
    const arm = pivotedArm(222, 239.3, degToRad(23));
    const after = armAfterMove(arm, straightMount(arm), { slide: 5, twist: 0 });
    const [x, y] = [239.3 + 5 * Math.cos(degToRad(23)), 5 * Math.sin(degToRad(23))];
    expect(after.effectiveLength).toBeCloseTo(Math.sqrt(x * x + y * y), 10);
    expect(after.offset).toBeCloseTo(degToRad(23) - Math.atan(y / x), 12);
  });

  test('a slide along the cartridge keeps the linear offset', () => {
    fc.assert(
      fc.property(arms, slides, (arm, slide) => {
        const after = armAfterMove(arm, straightMount(arm), { slide, twist: 0 });
        expect(linearOffset(after)).toBeCloseTo(linearOffset(arm), 9);
      }),
      { seed },
    );
  });

  test('a twist about the tip itself changes the offset alone', () => {
    fc.assert(
      fc.property(arms, twists, (arm, twist) => {
        const after = armAfterMove(arm, straightMount(arm, 0), { slide: 0, twist });
        expect(after.effectiveLength).toBeCloseTo(arm.effectiveLength, 10);
        expect(after.offset).toBeCloseTo(arm.offset + twist, 12);
      }),
      { seed },
    );
  });

  test('there and back: the move found is the move made', () => {
    fc.assert(
      fc.property(arms, slides, twists, fc.double({ min: 0, max: 20, noNaN: true }), (arm, slide, twist, tipAhead) => {
        const mount = straightMount(arm, tipAhead);
        const found = moveBetween(arm, armAfterMove(arm, mount, { slide, twist }), mount);
        if (!found.found) throw new Error(found.why.code);
        expect(found.value.slide).toBeCloseTo(slide, 8);
        expect(found.value.twist).toBeCloseTo(twist, 10);
      }),
      { seed },
    );
  });

  test('a length that no slide reaches is refused with its reason', () => {
    const arm = pivotedArm(222, 239.3, 0.4);
    const answer = moveBetween(arm, pivotedArm(222, 400, 0.4), straightMount(arm));
    expect(answer).toMatchObject({ found: false });
    expect(() => armAfterMove(arm, straightMount(arm), { slide: Number.NaN, twist: 0 })).toThrow('slide is NaN mm');
  });
});
