import { describe, expect, it } from 'vitest';
import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks } from '../measure/tilt.ts';
import { degToRad, radToDeg, ratioToDb } from '../units/units.ts';
import { say } from '../words/statement.ts';
import { meterDocument } from './meterDocument.ts';
import { tiltFromTwoReadings } from './voltmeter.ts';

/** What a meter would read of these leaks, through a mono switch of this gain, dB. */
function meterOn({ leftIntoRight: a, rightIntoLeft: b }: ComplexLeaks, monoGainDb = 0) {
  return {
    leftToRightDb: -ratioToDb(Math.hypot(a.re, a.im)),
    rightToLeftDb: -ratioToDb(Math.hypot(b.re, b.im)),
    mono: {
      leftMonoDb: ratioToDb(Math.hypot(1 + a.re, a.im)) + monoGainDb,
      rightMonoDb: ratioToDb(Math.hypot(1 + b.re, b.im)) + monoGainDb,
    },
  };
}
const tilted = (deg: number): ComplexLeaks =>
  predictAfterTurn({ leftIntoRight: { re: 0.01, im: 0.02 }, rightIntoLeft: { re: 0.012, im: -0.015 } }, -degToRad(deg));

describe('the third reading', () => {
  it.each([-3, -1, 0, 0.5, 2])('finds a tilt of %s° that a pair of readings cannot tell', (deg) => {
    const leaks = tilted(deg);
    for (const gain of [0, -6.02, 0.4]) {
      const answer = tiltFromTwoReadings(meterOn(leaks, gain));
      if (!answer.found) throw new Error(answer.why.code);
      expect(Math.abs(answer.angleDeg - radToDeg(tiltFromLeaks(leaks)))).toBeLessThan(0.1);
    }
  });

  it('±0.1 dB of each sum leaves ±0.5°, ±0.05 dB half of that', () => {
    const of = (readingUncertaintyDb?: number) => {
      const answer = tiltFromTwoReadings({ ...meterOn(tilted(1)), readingUncertaintyDb });
      return answer.found ? answer.uncertaintyDeg : Number.NaN;
    };
    expect(of()).toBeCloseTo(0.47, 1);
    expect(of(0.05)).toBeCloseTo(of(0.1) / 2, 2);
  });

  it('sees the pure tilt whose two separations are equal, and turns it the right way', () => {
    const leaks = predictAfterTurn(
      { leftIntoRight: { re: 0, im: 0.002 }, rightIntoLeft: { re: 0, im: 0.002 } },
      -degToRad(3),
    );
    const answer = tiltFromTwoReadings({ ...meterOn(leaks), readingUncertaintyDb: 0.05 });
    if (!answer.found) throw new Error(answer.why.code);
    expect(answer.angleDeg).toBeCloseTo(3, 1);
    const [move] = meterDocument(answer).advice;
    expect(move).toMatchObject({ action: 'tilt', direction: 'anticlockwise-from-front' });
    expect(move.expectedGainDb).toBeGreaterThan(2);
  });

  it('exchanged readings turn the other way', () => {
    const { leftToRightDb, rightToLeftDb, mono } = meterOn(tilted(2));
    const exchanged = tiltFromTwoReadings({
      leftToRightDb: rightToLeftDb,
      rightToLeftDb: leftToRightDb,
      mono: { leftMonoDb: mono.rightMonoDb, rightMonoDb: mono.leftMonoDb },
    });
    expect(exchanged.found && exchanged.angleDeg).toBeCloseTo(-radToDeg(tiltFromLeaks(tilted(2))), 1);
  });

  it('refuses sums that no leak of these sizes can make, and a level that is none of a mono sum', () => {
    const odd = tiltFromTwoReadings({ leftToRightDb: 40, rightToLeftDb: 40, mono: { leftMonoDb: -1, rightMonoDb: 1 } });
    expect(odd.found ? '' : say(odd.why)).toMatch(/differ by more than leaks of these sizes/);
    expect(() =>
      tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24, mono: { leftMonoDb: -28, rightMonoDb: 0 } }),
    ).toThrow(/left mono is -28/);
  });
});

describe('one pair of readings', () => {
  it.each([
    [24, 24, 3.6],
    [28, 24, 2.9],
    [35, 35, 1.0],
  ])('%s and %s dB leave ±%s°, whatever the phase, and are never good', (leftToRightDb, rightToLeftDb, deg) => {
    const answer = tiltFromTwoReadings({ leftToRightDb, rightToLeftDb });
    expect(answer.uncertaintyDeg).toBeCloseTo(deg, 1);
    const { findings, advice } = meterDocument(answer);
    expect(findings[0].verdict).toBe('undecided');
    expect(advice[0].action).not.toBe('tilt');
  });

  it('is a trial, and says to go back', () => {
    const [move] = meterDocument(tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24 })).advice;
    expect(move).toMatchObject({ action: 'trial-tilt', direction: 'anticlockwise-from-front' });
    expect(move.why).toContain('if the worse reading fell, go back');
    expect(move.predicts.map(({ value }) => value.toFixed(1))).toEqual(['25.8', '25.8']);
  });

  it('a surer reading says so', () => {
    const at = (readingUncertaintyDb: number) =>
      tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24, readingUncertaintyDb });
    expect(at(0.2).readingDeg).toBeCloseTo(at(0.1).readingDeg * 2, 9);
  });
});
