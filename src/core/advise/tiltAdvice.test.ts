import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks } from '../measure/tilt.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { recordError } from './budget/recordError.ts';
import { finding, upright } from './heardTilt.fixture.ts';
import { adviseSide, tiltGround } from './sideAdvice.ts';
import { signedTurn } from './turn.ts';

/** What a deck is heard as whose body leans by `deg`, clockwise positive, on a record whose tilt is certified. */
const leaning = (deg: number, own = upright): ComplexLeaks => predictAfterTurn(own, -degToRad(deg));
const certified = { tiltDeg: 0, tiltUncertaintyDeg: 0.2, separationDb: 45 };
const part = { re: 1e-4, im: 1e-4 };

function adviceOn(leaks: ComplexLeaks, record = recordError(certified), more: readonly Finding[] = []) {
  const tilt = tiltFromLeaks(leaks);
  const ground = tiltGround(
    { ...leaks, spread: { leftIntoRight: part, rightIntoLeft: part }, tilt, tiltSpread: 1e-4 },
    record,
  );
  const heard: Finding = { ...finding('azimuth-error', radToDeg(tilt), 0.2), unit: 'deg' };
  const [advice] = adviseSide([heard, ...more], ground).filter(({ action }) => action.endsWith('tilt'));
  const codes = advice.reasons?.map(({ code }) => code) ?? [];
  return { advice, codes, predicted: (quantity: string) => advice.predicts.find((one) => one.quantity === quantity) };
}
const dB = (leak: { re: number; im: number }): number => -20 * Math.log10(Math.hypot(leak.re, leak.im));

describe('the tilt’s advice, played, moved as told and played again', () => {
  for (const deg of [-2, -1, 1, 2]) {
    it(`leaves the deck that leaned by ${deg}° nearer upright, with the separations that it promised`, () => {
      const { advice, predicted, codes } = adviceOn(leaning(deg));
      expect(advice.action).toBe('tilt');
      // a turn by hand, clockwise positive, is added to the lean
      const after = leaning(deg + signedTurn(advice));
      expect(Math.abs(radToDeg(tiltFromLeaks(after)))).toBeLessThan(0.5 * Math.abs(deg));
      expect(predicted('separation-left-to-right')?.value).toBeCloseTo(dB(after.leftIntoRight), 6);
      expect(predicted('separation-right-to-left')?.value).toBeCloseTo(dB(after.rightIntoLeft), 6);
      expect(Math.min(dB(after.leftIntoRight), dB(after.rightIntoLeft))).toBeGreaterThan(
        Math.min(dB(leaning(deg).leftIntoRight), dB(leaning(deg).rightIntoLeft)) + 1,
      );
      expect(codes).toContain('turn-benefit');
      expect(codes).not.toContain('turn-trial');
      // told again of the deck as it is then, nothing more is turned
      expect(adviceOn(after).advice.action).toBe('leave-tilt');
    });
  }

  it('balance follows: what each channel hears of the other’s lateral tone is turned away too', () => {
    const balance: Finding = { ...finding('channel-balance', 0.4, 0.1), unit: 'dB', bands: [2] };
    const bands = [{ index: 2, motion: 'lateral' as const }];
    for (const deg of [-2, 2]) {
      const leaks = leaning(deg);
      const ground = tiltGround(
        {
          ...leaks,
          spread: { leftIntoRight: part, rightIntoLeft: part },
          tilt: tiltFromLeaks(leaks),
          tiltSpread: 1e-4,
        },
        recordError(certified),
      );
      const heard: Finding = { ...finding('azimuth-error', deg, 0.2), unit: 'deg' };
      const told = (on: Parameters<typeof adviseSide>[3]) => adviseSide([heard, balance], ground, undefined, on)[0];
      const advice = told(bands);
      const after = leaning(deg + signedTurn(advice));
      // a lateral tone: left comes out as 1 + what right leaks into it, right as 1 + what left leaks into it
      const lateral = (of: ComplexLeaks): number =>
        20 * Math.log10(Math.hypot(1 + of.rightIntoLeft.re, of.rightIntoLeft.im)) -
        20 * Math.log10(Math.hypot(1 + of.leftIntoRight.re, of.leftIntoRight.im));
      const predicted = advice.predicts.find(({ quantity }) => quantity === 'channel-balance');
      expect(predicted?.value).toBeCloseTo(0.4 + lateral(after) - lateral(leaks), 6);
      expect(Math.sign((predicted?.value ?? 0) - 0.4)).toBe(-Math.sign(deg));
      // read on a one-sided tone it holds no leak
      expect(told([{ index: 2, motion: 'left' }]).predicts.map(({ quantity }) => quantity)).not.toContain(
        'channel-balance',
      );
    }
  });

  it('an upright deck is left alone; a better record is wanted only where it could still gain', () => {
    const still = adviceOn(leaning(0));
    expect(still.advice).toMatchObject({ action: 'leave-tilt', amount: null, direction: null });
    expect(still.codes).toEqual(['leave-tilt', 'leave-no-gain']);
    const unsure = adviceOn(leaning(0.5), recordError(undefined));
    expect(unsure.advice.action).not.toBe('tilt');
    expect(adviceOn(leaning(0.4), recordError(undefined)).codes).toContain('leave-could-gain');
  });

  it('only part of what is heard is turned on a record that may itself be tilted, either way', () => {
    for (const deg of [-2, 2]) {
      const { advice, codes } = adviceOn(leaning(deg), recordError(undefined));
      expect(Math.sign(signedTurn(advice))).toBe(-Math.sign(deg));
      expect(Math.abs(signedTurn(advice))).toBeLessThan(0.95 * Math.abs(deg));
      expect(codes).toContain('turn-part');
    }
  });

  it('leaks of opposite sign read alike on a meter, and that is said; where one reads better it is not', () => {
    // ±t alone: both separations equal, all of it tilt
    const own = { leftIntoRight: { re: 1e-3, im: 0.01 }, rightIntoLeft: { re: 1e-3, im: 0.01 } };
    for (const deg of [-2, 2]) {
      const heard = leaning(deg, own);
      expect(Math.abs(dB(heard.leftIntoRight) - dB(heard.rightIntoLeft))).toBeLessThan(1);
      expect(adviceOn(heard).codes).toContain('alike-and-tilted');
      expect(adviceOn(leaning(deg)).codes).not.toContain('alike-and-tilted');
    }
  });

  it('says what equal separations would set instead, where the cartridge is not symmetrical', () => {
    const own = { leftIntoRight: { re: 0.03, im: 0 }, rightIntoLeft: { re: 0.03, im: 0.03 } };
    const { codes, advice } = adviceOn(leaning(2, own));
    expect(codes).toContain('set-for-equal');
    const other = advice.reasons?.find(({ code }) => code === 'set-for-equal')?.values.other as number;
    const set = leaning(2 - other, own);
    // the rule is told to first order
    expect(Math.abs(dB(set.leftIntoRight) - dB(set.rightIntoLeft))).toBeLessThan(0.05);
    expect(adviceOn(leaning(2)).codes).not.toContain('set-for-equal');
  });

  it('says that left is taken for left until a record file has told the order', () => {
    expect(adviceOn(leaning(2)).codes).toContain('left-assumed-turn');
    expect(adviceOn(leaning(2), undefined, [finding('channel-order', 'normal', null)]).codes).not.toContain(
      'left-assumed-turn',
    );
  });

  it('takes what is known of the record off before anything is turned', () => {
    const record = recordError(certified);
    const cut = { ...record, leaks: { leftIntoRight: { re: -0.03, im: 0 }, rightIntoLeft: { re: 0.03, im: 0 } } };
    // heard as 0.03 of tilt, all of it the record's
    const heard = { leftIntoRight: { re: -0.03 + 0.015, im: 0.01 }, rightIntoLeft: { re: 0.03 + 0.015, im: -0.01 } };
    expect(adviceOn(heard, cut).advice.action).toBe('leave-tilt');
    expect(adviceOn(heard, record).advice.action).toBe('tilt');
    expect(tiltGround(undefined, record)).toBeNull();
  });
});
