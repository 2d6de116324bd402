import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { recordError } from './budget/recordError.ts';
import { meterDocument } from './meterDocument.ts';
import { moves, told } from './told.fixture.ts';
import { turnWorth, usualBody } from './turnWorth.ts';
import { type TiltFromMeter, tiltFromTwoReadings } from './voltmeter.ts';

const DEG = Math.PI / 180;
const dB = (ratio: number) => -20 * Math.log10(ratio);
const assumption = statement('scale-alike');
/** Readings of a deck that leans by so many degrees with a common leak. */
const leaning = (deg: number, more: Partial<TiltFromMeter> = {}): TiltFromMeter => {
  const t = Math.tan(deg * DEG);
  return {
    found: true,
    angleDeg: deg,
    readingDeg: 0.05,
    uncertaintyDeg: 0.05,
    leaks: { leftIntoRight: { re: 0.01 - t, im: 0.012 }, rightIntoLeft: { re: 0.01 + t, im: 0.008 } },
    predictedLeftToRightDb: 30,
    predictedRightToLeftDb: 30,
    assumption,
    ...more,
  };
};
const onScale = (deg: number, best: number, last: number, scale = 1) =>
  leaning(deg, { bestTiltDeg: best, bestReadingDeg: 0.2, scale, lastTiltDeg: last });
const certified = { cut: { tiltDeg: 0, tiltUncertaintyDeg: 0.1, separationDb: 50 } };
const words = (...of: Parameters<typeof meterDocument>) =>
  meterDocument(...of).advice[0].reasons!.map((one) => told(one, 3));
const codes = (...of: Parameters<typeof meterDocument>) =>
  meterDocument(...of).advice[0].reasons!.map(({ code }) => code);

describe('a pair of readings without phase', () => {
  it.each([
    [28, 24, 'anticlockwise'],
    [24, 28, 'clockwise'],
  ])('%d and %d dB: a trial, %s', (leftToRightDb, rightToLeftDb, way) => {
    const answer = tiltFromTwoReadings({ leftToRightDb, rightToLeftDb });
    const { schema, findings, advice } = meterDocument(answer);
    const record = recordError(undefined);
    const ofRecord = (2 * Math.sqrt(record.leakDoubt.tilt)) / DEG;
    const phase = Math.sqrt(answer.uncertaintyDeg ** 2 - answer.readingDeg ** 2);
    expect([schema, findings.length, advice.length]).toEqual([1, 1, 1]);
    expect(findings[0]).toMatchObject({
      quantity: 'azimuth-error',
      value: expect.closeTo(answer.angleDeg, 9),
      asHeard: answer.angleDeg,
      unit: 'deg',
      uncertainty: expect.closeTo(Math.hypot(answer.readingDeg, phase, ofRecord), 9),
      repeatability: answer.readingDeg,
      bands: [],
      notes: [{ code: 'no-phase-on-a-meter' }],
      verdict: 'undecided',
      decides: { code: 'decide-by-phase' },
    });
    expect(findings[0].budget!.map(({ of, size, unit }) => [of!.code, Number(size.toFixed(6)), unit])).toEqual([
      ['phase-of-leaks', Number(phase.toFixed(6)), 'deg'],
      ['record-leak', Number(ofRecord.toFixed(6)), 'deg'],
      ['readings', Number(answer.readingDeg.toFixed(6)), 'deg'],
    ]);
    const [move] = advice;
    expect(move.direction).toBe(`${way}-from-front`);
    expect(move.amount).toBeCloseTo(Math.abs(answer.angleDeg), 9);
    expect(move.uncertainty).toBeCloseTo(findings[0].uncertainty!, 9);
    expect(move).not.toHaveProperty('expectedGainDb');
    expect(codes(answer)).toEqual([
      'turn-way',
      'turn-sides',
      'turn-shim',
      'turn-tube',
      'turn-trial-meter',
      'no-phase-on-a-meter',
    ]);
    // turned, both come to the mean leak
    expect(move.predicts).toEqual(
      ['separation-left-to-right', 'separation-right-to-left'].map((quantity) => ({
        quantity,
        value: expect.closeTo(answer.predictedLeftToRightDb, 1),
        unit: 'dB',
      })),
    );
  });

  it('a tilt that no hand sets finer is left, either way, with what would decide it', () => {
    const pair = (deg: number) => ({ ...tiltFromTwoReadings({ leftToRightDb: 26, rightToLeftDb: 26 }), angleDeg: deg });
    for (const sign of [1, -1]) {
      expect(moves(meterDocument(pair(0.24 * sign)).advice)).toEqual([
        'leave-tilt null null deg: decide-by-phase no-phase-on-a-meter',
      ]);
      expect(meterDocument(pair(0.26 * sign)).advice[0].action).toBe('trial-tilt');
    }
    // left alone, the separations stay: the mean leak with the tilt on it
    const left = meterDocument(pair(0.2)).advice[0].predicts.map(({ value }) => value);
    const [mean, half] = [10 ** (-26 / 20), Math.tan(0.2 * DEG)];
    expect(left).toEqual([expect.closeTo(dB(mean - half), 6), expect.closeTo(dB(mean + half), 6)]);
  });
});

describe('readings that know the leaks', () => {
  it.each([
    [2, 'anticlockwise'],
    [-2, 'clockwise'],
  ])('a lean of %d° is turned %s, by what that is worth', (deg, way) => {
    const answer = leaning(deg);
    const record = recordError(certified.cut);
    const part = Math.tan(0.05 * DEG) ** 2 / 2;
    const noise = { re: part, im: part };
    const worth = turnWorth(
      answer.leaks!,
      { ...record.leakDoubt, noise: { leftIntoRight: noise, rightIntoLeft: noise } },
      usualBody(false),
    );
    const [move] = meterDocument(answer, certified).advice;
    expect(move).toMatchObject({ action: 'tilt', direction: `${way}-from-front` });
    expect(move.amount).toBeCloseTo(Math.abs(worth.turn) / DEG, 6);
    expect(move.expectedGainDb).toBeCloseTo(worth.expectedGainDb, 6);
    expect(move.harmProbability).toBe(worth.harmProbability);
    expect(codes(answer, certified).slice(-2)).toEqual(['turn-benefit', 'scale-alike']);
    expect(words(answer, certified).at(-2)).toBe(
      `turn-benefit gain=${Number(worth.expectedGainDb.toFixed(3))} harm=${Number((100 * worth.harmProbability).toFixed(3))}`,
    );
    expect(meterDocument(answer, certified).findings[0].verdict).toBe('adjust');
  });

  it('a trial is called one; an upright deck is left, and the separations as they are foretold', () => {
    const trial = leaning(1.8);
    expect(meterDocument(trial).advice[0].action).toBe('trial-tilt');
    expect(codes(trial).slice(-3)).toEqual(['turn-benefit', 'turn-trial', 'scale-alike']);
    const still = meterDocument(leaning(0), certified);
    expect(moves(still.advice)).toEqual(['leave-tilt null null deg: leave-tilt leave-no-gain scale-alike']);
    expect(still.advice[0].expectedGainDb).toBeLessThan(1);
    expect(still.findings[0].verdict).toBe('good');
    expect(still.advice[0].predicts.map(({ value }) => value)).toEqual([
      expect.closeTo(dB(Math.hypot(0.01, 0.012)), 6),
      expect.closeTo(dB(Math.hypot(0.01, 0.008)), 6),
    ]);
  });

  it('what a certificate or the shop knows of the record’s tilt is taken off once, and told', () => {
    const cut = { tiltDeg: 1.5, tiltUncertaintyDeg: 0.1, separationDb: 50 };
    const [by] = meterDocument(leaning(0.5), { cut }).findings;
    expect(by).toMatchObject({ value: expect.closeTo(-1, 9), asHeard: 0.5 });
    expect(by.notes!.map((one) => told(one))).toEqual(['scale-alike', 'record-tilt-removed degrees=1.5']);
    expect(meterDocument(leaning(0.5), { cut: { tiltDeg: 0 } }).findings[0].notes).toHaveLength(2);
    expect(meterDocument(leaning(0.5), { cut: {} }).findings[0].notes).toHaveLength(1);
    const t = Math.tan(1.5 * DEG);
    const learned = {
      schema: 1,
      kind: 'learned-record',
      record: { name: 'invented', key: 'k' },
      decks: 20,
      leaks: {
        mean: { leftIntoRight: { re: 0.002 - t, im: 0.01 }, rightIntoLeft: { re: 0.002 + t, im: 0.02 } },
        variance: { tilt: 1e-6, common: 1e-6, quadrature: 1e-6 },
      },
    } as const;
    const of = meterDocument(leaning(-2), { learned });
    expect(of.findings[0].value).toBeCloseTo(-3.5, 6);
    // in-phase parts alone are taken off: a quadrature part without its sign widens the doubt instead
    const heard = Math.tan(-2 * DEG);
    const deck = {
      leftIntoRight: { re: 0.01 - heard - 0.002 + t, im: 0.012 },
      rightIntoLeft: { re: 0.01 + heard - 0.002 - t, im: 0.008 },
    };
    const part = Math.tan(0.05 * DEG) ** 2 / 2;
    const noise = { re: part, im: part };
    const quadrature = 1e-6 + (0.01 ** 2 + 0.02 ** 2) / 2;
    const worth = turnWorth(deck, {
      tilt: 1e-6,
      common: 1e-6,
      quadrature,
      noise: { leftIntoRight: noise, rightIntoLeft: noise },
    });
    expect(of.advice[0].amount).toBeCloseTo(Math.abs(worth.turn) / DEG, 6);
    expect(of.advice[0].expectedGainDb).toBeCloseTo(worth.expectedGainDb, 6);
  });
});

describe('where to set one’s own scale', () => {
  it.each([1, -1])('whole, for a scale that best stands at %d°', (sign) => {
    const answer = onScale(-2 * sign, 2 * sign, 0.5 * sign, 1.1);
    const { findings } = meterDocument(answer, certified);
    expect(findings[0].notes!.map(({ code }) => code)).toEqual(['scale-at-zero', 'scale-alike', 'record-tilt-removed']);
    const ofRecord = 0.1 / 1.1;
    expect(findings[1]).toMatchObject({
      quantity: 'best-tilt-setting',
      value: expect.closeTo(2 * sign, 9),
      unit: 'deg',
      uncertainty: expect.closeTo(Math.hypot(0.2, ofRecord), 3),
      repeatability: 0.2,
      verdict: 'info',
      notes: [{ code: 'own-scale' }, { code: 'record-tilt-removed' }],
    });
    const [move] = meterDocument(answer, certified).advice;
    // the scale is turned to where the tip's own turn leads, seen from where it stood last
    const best = (sign * move.amount!) / 1.1;
    const rest = best - 0.5 * sign;
    expect(words(answer, certified).filter((one) => one.startsWith('scale-'))).toEqual([
      `scale-set best=${Number(best.toFixed(3))}`,
      `scale-from-last last=${0.5 * sign} rest=${Number(Math.abs(rest).toFixed(3))} way=${sign > 0 ? 'clockwise' : 'anticlockwise'}`,
      'scale-alike',
    ]);
  });

  it('back from beyond it is the other way; there already is said', () => {
    const from = (last: number) => words(onScale(-2, 2, last), certified).find((one) => /^scale-(from|last)/.test(one));
    const best = meterDocument(onScale(-2, 2, 0), certified).advice[0].amount!;
    expect(from(best - 1)).toContain('way=clockwise');
    expect(from(best + 1)).toContain('way=anticlockwise');
    expect(from(best + 1)).toContain('rest=1 ');
    for (const near of [0.0049, -0.0049]) expect(from(best + near)).toBe('scale-last-there');
    for (const far of [0.0051, -0.0051]) expect(from(best + far)).toContain('scale-from-last');
    const left = words(onScale(0, 0, 0.4), certified);
    expect(left).toEqual([
      'leave-tilt',
      'leave-no-gain',
      'scale-leave best=0',
      'scale-from-last last=0.4 rest=0.4 way=anticlockwise',
      'scale-alike',
    ]);
  });

  it('a known record shifts the setting by its tilt on the scale', () => {
    const cut = { tiltDeg: 1.1, tiltUncertaintyDeg: 0.1, separationDb: 50 };
    expect(meterDocument(onScale(-2, 2, 0, 1.1), { cut }).findings[1].value).toBeCloseTo(3, 9);
    const bare = leaning(-2, { bestTiltDeg: 2 });
    expect(meterDocument(bare, { cut }).findings[1]).toMatchObject({ value: expect.closeTo(3.1, 9) });
    expect(meterDocument(bare, { cut }).findings[1].repeatability).toBe(0.05);
  });

  it('a scale that is off by a quarter is told', () => {
    const off = (scale: number) => codes(onScale(-2, 2, 0, scale), certified).includes('scale-off');
    expect([0.79, 0.8, 1.25, 1.26].map(off)).toEqual([true, false, false, true]);
    expect(codes(leaning(-2, { lastTiltDeg: 1 }), certified)).not.toContain('scale-set');
    expect(codes(leaning(-2, { scale: 2 }), certified)).not.toContain('scale-off');
  });
});
