/**
 * Skating. Statics [C]: moment about the pivot μ F L sin θ, force square to the arm μ F sin θ, force on the groove wall
 * along the radius μ F tan θ; θ is the angle of the arm to the groove, not the offset alone. The lever is by
 * trigonometry: 229 mm · sin 22° = 85.78 mm.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { antiSkatingStart, skatingOverSide } from '../../src/core/advise/skatingSide.ts';
import { skatingForce, skatingForceAcrossArm, skatingMoment } from '../../src/core/mechanics/skating.ts';
import { degToRad, gramForceToMn, mnToGramForce } from '../../src/core/units/units.ts';
import { say, sayAll } from '../../src/core/words/statement.ts';

const seed = 481;
/** Löfgren A of 60.325 to 146.05 for 222 mm */
const arm = { spindleToPivotMm: 222, effectiveLengthMm: Math.sqrt(222 ** 2 + 65.9980463742 * 120.891475708) };
const question = {
  ...arm,
  trackingForceMn: gramForceToMn(2),
  friction: 0.25,
  grooveInnerMm: 60.325,
  grooveOuterMm: 146.05,
};

describe('skating, 2 gf and friction 0.25', () => {
  /** radius, θ deg, across the arm gf and mN, on the wall gf, moment mN·m */
  test.each([
    [60.325, 23.7283, 0.2012, 1.9731, 0.2198, 0.47215],
    [89.3, 21.9177, 0.1866, 1.8303, 0.2012, 0.43798],
    [146.05, 24.7911, 0.2097, 2.056, 0.2309, 0.492],
  ])('at %d mm', (radius, thetaDeg, acrossGf, acrossMn, wallGf, moment) => {
    const answer = skatingOverSide({ ...question, grooveInnerMm: radius, grooveOuterMm: radius + 0.001 }, 2);
    if (!answer.found) throw new Error(answer.why.code);
    const { inner } = answer.side;
    expect(Math.abs(inner.thetaDeg - thetaDeg)).toBeLessThanOrEqual(0.00006);
    expect(Math.abs(mnToGramForce(inner.acrossArmMn) - acrossGf)).toBeLessThanOrEqual(0.00006);
    expect(Math.abs(inner.acrossArmMn - acrossMn)).toBeLessThanOrEqual(0.00006);
    expect(Math.abs(mnToGramForce(inner.forceMn) - wallGf)).toBeLessThanOrEqual(0.00006);
    expect(Math.abs(inner.momentMnMm / 1000 - moment)).toBeLessThanOrEqual(0.000006);
  });

  test('the published lever, 229 mm at 22°', () => {
    const theta = degToRad(22);
    const force = gramForceToMn(2) * 1e-3;
    const lever = skatingMoment(force, 0.3, theta, 229) / (0.3 * force);
    expect(lever).toBeCloseTo(85.785, 3);
    expect(mnToGramForce(skatingForceAcrossArm(force, 0.3, theta) * 1e3)).toBeCloseTo(0.2248, 4);
  });

  test(`the wall's push and the friction balance about the pivot (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.005, max: 0.05, noNaN: true }),
        fc.double({ min: 0.1, max: 0.6, noNaN: true }),
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        fc.double({ min: 150, max: 350, noNaN: true }),
        (force, friction, theta, length) => {
          const friction_moment = friction * force * length * Math.sin(theta);
          const wall_moment = skatingForce(force, friction, theta) * length * Math.cos(theta);
          expect(wall_moment).toBeCloseTo(friction_moment, 12);
          expect(skatingMoment(force, friction, theta, length)).toBeCloseTo(friction_moment, 12);
          expect(skatingForce(force, friction, -theta)).toBeCloseTo(-skatingForce(force, friction, theta), 15);
        },
      ),
      { seed },
    );
  });

  test('sign: an arm with offset is drawn inward, a straight underhung one outward near the spindle', () => {
    const side = skatingOverSide(question);
    expect(side.found && side.side.points.every((point) => point.forceMn > 0)).toBe(true);
    const underhung = skatingOverSide({ ...question, effectiveLengthMm: 210 });
    if (!underhung.found) throw new Error(underhung.why.code);
    expect(underhung.side.inner.forceMn).toBeLessThan(0);
    expect(underhung.side.outer.forceMn).toBeGreaterThan(0);
    const none = antiSkatingStart({ ...underhung.side, moment: { least: -1, mean: -0.1, most: 1 } }, question, {
      kind: 'thread',
      leverMm: 10,
    });
    expect(none.found).toBe(false);
  });

  test('an arm that cannot play the side is told so', () => {
    const answer = skatingOverSide({ ...question, effectiveLengthMm: 320 });
    expect(answer).toMatchObject({ found: false });
    expect(() => skatingOverSide({ ...question, friction: Number.NaN })).toThrow(/friction is NaN/);
  });
});

describe('start value of the device', () => {
  const answer = skatingOverSide(question);
  if (!answer.found) throw new Error(answer.why.code);
  const { side } = answer;

  test('the weight on the thread gives the mean moment', () => {
    const set = antiSkatingStart(side, question, { kind: 'thread', leverMm: 12 });
    if (!set.found) throw new Error(set.why.code);
    expect(set.setting * 9.80665 * 12).toBeCloseTo(side.moment.mean, 9);
    expect(set.leftInnerMn * arm.effectiveLengthMm).toBeCloseTo(side.inner.momentMnMm - side.moment.mean, 9);
  });

  test('the notch nearest to the exact lever is taken, and what it leaves is told', () => {
    const exact = side.moment.mean / (9.80665 * 3);
    const set = antiSkatingStart(side, question, { kind: 'notched-lever', weightG: 3, notchesMm: [8, 12, 16, 20] });
    if (!set.found) throw new Error(set.why.code);
    expect(Math.abs(set.setting - exact)).toBeLessThanOrEqual(2);
    expect(set.leftOuterMn * arm.effectiveLengthMm).toBeCloseTo(side.outer.momentMnMm - 3 * 9.80665 * set.setting, 9);
  });

  test('a dial made for another friction is turned in proportion', () => {
    const set = antiSkatingStart(side, question, { kind: 'dial', dialFriction: 0.3 });
    expect(set.found && set.setting).toBeCloseTo((question.trackingForceMn * 0.25) / 0.3, 9);
  });

  test('what is said is no finer than it can be set, and friction’s part is beside it', () => {
    const thread = antiSkatingStart(side, question, { kind: 'thread', leverMm: 12 });
    if (!thread.found) throw new Error(thread.why.code);
    // μ 0.25 ± 0.1 and a force within 2 %, k = 2: the setting is a product of both
    expect(thread.uncertainty).toBeCloseTo(thread.setting * Math.hypot(0.1 / 0.25, 0.02), 6);
    expect(sayAll(thread.says)).toContain(
      `about ${thread.setting.toFixed(1)} g (± ${thread.uncertainty?.toFixed(1)} g`,
    );
    const dial = antiSkatingStart(side, question, { kind: 'dial', dialFriction: 0.25 });
    expect(dial.found && sayAll(dial.says)).toContain('about 2.0 g (20 mN)');
    expect(dial.found && dial.uncertainty).toBeCloseTo(question.trackingForceMn * Math.hypot(0.1 / 0.25, 0.02), 6);
  });

  test('a lever that ends before the notch wanted is told', () => {
    const lever = (weightG: number, notchesMm: readonly number[]) => {
      const set = antiSkatingStart(side, question, { kind: 'notched-lever', weightG, notchesMm });
      return set.found ? sayAll(set.says) : say(set.why);
    };
    expect(lever(3, [8, 12, 16, 20])).not.toContain('ends before');
    expect(lever(1, [8, 12])).toContain('a heavier weight would reach');
    expect(lever(9, [8, 12])).toContain('a lighter weight would reach');
  });
});
