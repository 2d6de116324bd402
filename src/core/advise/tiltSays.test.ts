import { describe, expect, it } from 'vitest';
import { predictAfterTurn, tiltOfEqualSeparations } from '../measure/tilt.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { recordError } from './budget/recordError.ts';
import type { Prediction } from './document.ts';
import { finding, upright } from './heardTilt.fixture.ts';
import { adviseSide, type TiltGround } from './sideAdvice.ts';

const DEG = degToRad(1);
const WORTH: TiltGround['worth'] = {
  action: 'tilt',
  turn: DEG,
  expectedGainDb: 3,
  harmProbability: 0.01,
  gainIfKnownDb: 0,
  tilt: DEG,
  tiltSpread: 0.05 * DEG,
};

/** What is said of a turn of which everything is known beforehand. @param heardDeg tilt of least leak, clockwise positive */
function said(
  heardDeg: number,
  worth: Partial<TiltGround['worth']> = {},
  { leaks = upright, noise = { leftIntoRight: 1e-4, rightIntoLeft: 1e-4 }, uncertainty = 0.2 as number | null } = {},
) {
  const ground: TiltGround = { leaks, noise, worth: { ...WORTH, ...worth }, record: recordError(undefined) };
  const [advice] = adviseSide([{ ...finding('azimuth-error', heardDeg, uncertainty), unit: 'deg' }], ground);
  return { advice, codes: advice.reasons?.map(({ code }) => code) ?? [] };
}

describe('what the tilt’s advice says, from either side of where it begins to', () => {
  for (const sign of [1, -1]) {
    it(`a turn ${sign > 0 ? 'against' : 'with'} the clock that is a part of what was heard is called one`, () => {
      expect(said(sign, { turn: sign * 0.94 * DEG }).codes).toContain('turn-part');
      expect(said(sign, { turn: sign * 0.96 * DEG }).codes).not.toContain('turn-part');
      // the amount is that of the turn and not of what was heard, its ± is twice the spread
      const { advice } = said(sign, { turn: sign * 0.6 * DEG, tiltSpread: 0.11 * DEG });
      expect(advice.amount).toBeCloseTo(0.6, 9);
      expect(advice.uncertainty).toBeCloseTo(0.22, 9);
      expect(advice.direction).toBe(sign > 0 ? 'anticlockwise-from-front' : 'clockwise-from-front');
    });

    it(`tells where equal separations lie, ${sign > 0 ? 'clockwise' : 'anticlockwise'} of the least leak, beyond doubt and 0.1°`, () => {
      const leaks = { ...upright, rightIntoLeft: { re: 0.015 + sign * 0.01, im: -0.01 } };
      const equal = radToDeg(tiltOfEqualSeparations(leaks) as number);
      const codes = (off: number, uncertainty: number | null) => said(equal + off, {}, { leaks, uncertainty }).codes;
      for (const off of [1, -1]) {
        expect(codes(off * 0.31, 0.3)).toContain('set-for-equal');
        expect(codes(off * 0.29, 0.3)).not.toContain('set-for-equal');
        // without a figure of its own, and with one that is smaller than what a hand sets
        for (const small of [null, 0.01]) {
          expect(codes(off * 0.11, small)).toContain('set-for-equal');
          expect(codes(off * 0.09, small)).not.toContain('set-for-equal');
        }
      }
    });
  }

  it('leaves open what a better record could gain from 1 dB on', () => {
    const left = (gainIfKnownDb: number) => said(1, { action: 'leave-tilt', turn: 0, gainIfKnownDb });
    expect(left(1).codes).toEqual(['leave-tilt', 'leave-no-gain', 'leave-could-gain']);
    expect(left(0.99).codes).toEqual(['leave-tilt', 'leave-no-gain']);
    expect(left(1.4).advice.reasons?.at(-1)?.values).toEqual({ gain: 1.4 });
    expect(left(0).advice).toMatchObject({ amount: null, direction: null, expectedGainDb: 3, harmProbability: 0.01 });
  });

  it('gives gain and harm of what was weighed, and calls a trial a trial', () => {
    const { advice, codes } = said(1, { action: 'trial-tilt', expectedGainDb: 2.2, harmProbability: 0.07 });
    expect(codes).toContain('turn-trial');
    expect(advice).toMatchObject({ action: 'trial-tilt', expectedGainDb: 2.2, harmProbability: 0.07 });
    const { gain, harm } = advice.reasons?.find(({ code }) => code === 'turn-benefit')?.values ?? {};
    expect(gain).toBe(2.2);
    expect(harm).toBeCloseTo(7, 9);
  });

  it('each separation is promised with the noise of its own leak', () => {
    const predicted = (noise: TiltGround['noise']) =>
      Object.fromEntries(said(1, {}, { noise }).advice.predicts.map((one) => [one.quantity, one]));
    const even = predicted({ leftIntoRight: 1e-4, rightIntoLeft: 1e-4 });
    const uneven = predicted({ leftIntoRight: 4e-3, rightIntoLeft: 1e-4 });
    const [ofLeft, ofRight] = ['separation-left-to-right', 'separation-right-to-left'];
    const width = ({ low, high }: Prediction) => (high ?? 0) - (low ?? 0);
    expect(width(uneven[ofLeft])).toBeGreaterThan(1.05 * width(even[ofLeft]));
    expect(uneven[ofRight]).toEqual(even[ofRight]);
    const after = predictAfterTurn(upright, DEG);
    const dB = ({ re, im }: { re: number; im: number }) => -20 * Math.log10(Math.hypot(re, im));
    expect(even[ofLeft].value).toBeCloseTo(dB(after.leftIntoRight), 6);
    expect(even[ofRight].value).toBeCloseTo(dB(after.rightIntoLeft), 6);
    expect(dB(after.leftIntoRight)).not.toBeCloseTo(dB(after.rightIntoLeft), 1);
  });
});

describe('speed', () => {
  const speed = (value: number) => adviseSide([finding('speed-error', value, 0.1)], null)[0];
  for (const [sign, set, off] of [
    [1, 'slower', 'fast'],
    [-1, 'faster', 'slow'],
  ] as const) {
    it(`is trimmed ${set} up to 8 %, and is the wrong one beyond`, () => {
      expect(speed(sign * 8)).toMatchObject({ direction: set, amount: 8, unit: '%', uncertainty: 0.1 });
      expect(speed(sign * 8).reasons).toEqual([expect.objectContaining({ code: 'speed-trim' })]);
      expect(speed(sign * 8).reasons?.[0].values).toEqual({ percent: 8, off, set });
      expect(speed(sign * 8.1).reasons?.[0]).toMatchObject({ code: 'speed-wrong', values: { percent: 8.1, off } });
      expect(speed(sign * 3).predicts).toEqual([{ quantity: 'speed-error', value: 0, unit: '%' }]);
    });
  }
});
