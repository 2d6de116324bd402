/** What a meter reads is deck and record together: what is known of the record is taken off, and what is not is in the uncertainty. */
import { describe, expect, it } from 'vitest';
import { type ComplexLeaks, predictAfterTurn } from '../measure/tilt.ts';
import { degToRad, ratioToDb } from '../units/units.ts';
import type { LearnedRecord } from './budget/learnedRecord.ts';
import { type MeterKnown, meterDocument } from './meterDocument.ts';
import { tiltFromReadings, tiltFromTwoReadings } from './voltmeter.ts';

const small = { leftIntoRight: { re: 0.004, im: 0.006 }, rightIntoLeft: { re: 0.004, im: 0.006 } };
/** A deck tilted by the first on a record cut with a tilt of the second, deg, clockwise positive. */
const heardOf = (deckDeg: number, cutDeg: number): ComplexLeaks => predictAfterTurn(small, -degToRad(deckDeg + cutDeg));
const size = ({ re, im }: { re: number; im: number }) => Math.hypot(re, im);
const separations = (leaks: ComplexLeaks) => ({
  leftToRightDb: -ratioToDb(size(leaks.leftIntoRight)),
  rightToLeftDb: -ratioToDb(size(leaks.rightIntoLeft)),
});
function mono(leaks: ComplexLeaks) {
  const sum = (c: { re: number; im: number }) => ratioToDb(Math.hypot(1 + c.re, c.im));
  const answer = tiltFromTwoReadings({
    ...separations(leaks),
    readingUncertaintyDb: 0.02,
    mono: { leftMonoDb: sum(leaks.leftIntoRight), rightMonoDb: sum(leaks.rightIntoLeft) },
  });
  if (!answer.found) throw new Error(answer.why.code);
  return answer;
}
const cut = { tiltDeg: 1.5, tiltUncertaintyDeg: 0.1, separationDb: 40 };
const learned: LearnedRecord = {
  schema: 1,
  kind: 'learned-record',
  record: { name: 'invented', key: 'k' },
  decks: 20,
  leaks: {
    mean: {
      leftIntoRight: { re: -Math.tan(degToRad(1.5)), im: 0 },
      rightIntoLeft: { re: Math.tan(degToRad(1.5)), im: 0 },
    },
    variance: { tilt: 1e-6, common: 1e-6, quadrature: 1e-6 },
  },
};
const tiltOf = (leaks: ComplexLeaks, known?: MeterKnown) => meterDocument(mono(leaks), known).findings[0];

describe('with mono sums', () => {
  it.each([
    ['certificate', { cut }],
    ['learned record', { learned }],
  ])('the record’s tilt is taken off by its %s, and the doubt of it shrinks', (_, known) => {
    const leaks = heardOf(-2, 1.5);
    const [blind, told] = [tiltOf(leaks), tiltOf(leaks, known)];
    expect(blind.value).toBeCloseTo(-0.5, 1);
    expect(told.value).toBeCloseTo(-2, 1);
    expect(told.asHeard).toBe(blind.value);
    expect(blind.uncertainty).toBeGreaterThan(1.2);
    expect(told.uncertainty).toBeLessThan(0.25);
  });

  it('an upright deck on a record cut askew is left alone, and its forecast is the deck’s own separation', () => {
    const answer = mono(heardOf(0, 3));
    const askew = { ...cut, tiltDeg: 3 };
    expect(meterDocument(answer).advice[0].action).not.toBe('leave-tilt');
    const [move] = meterDocument(answer, { cut: askew }).advice;
    expect(move.action).toBe('leave-tilt');
    expect(move.predicts[0].value).toBeCloseTo(-ratioToDb(size(small.leftIntoRight)), 0);
  });

  it('a body set by mirror is believed more than what an uncertified record says', () => {
    const answer = mono(heardOf(2.5, 0));
    const amount = (setByMirror: boolean) => meterDocument(answer, { setByMirror }).advice[0].amount;
    expect(amount(true)).toBeLessThan(amount(false) as number);
  });
});

describe('without phase', () => {
  it('the certificate’s tilt shifts the trial, and an unknown record widens what the readings leave open', () => {
    const answer = tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24 });
    const [blind, told] = [meterDocument(answer), meterDocument(answer, { cut })];
    expect(told.findings[0].value).toBeCloseTo(answer.angleDeg - 1.5, 9);
    expect(told.advice[0].direction).toBe('clockwise-from-front');
    expect(blind.advice[0].direction).toBe('anticlockwise-from-front');
    expect(told.findings[0].verdict).toBe('undecided');
    expect(told.findings[0].uncertainty).toBeCloseTo(Math.hypot(answer.uncertaintyDeg, 0.1), 2);
    expect(blind.findings[0].uncertainty).toBeCloseTo(Math.hypot(answer.uncertaintyDeg, 1.22), 2);
  });
});

it('readings at several tilts: the setting that is told is the deck’s', () => {
  // tilted by τ on the scale, heard with 1.5° of the record
  const rows = [-3, -1, 0, 1, 3].map((tiltDeg) => ({ tiltDeg, ...separations(heardOf(2 + tiltDeg, 1.5)) }));
  const answer = tiltFromReadings(rows, 0.05);
  if (!answer.found) throw new Error(answer.why.code);
  const best = (known?: MeterKnown) => meterDocument(answer, known).findings[1].value;
  expect(best()).toBeCloseTo(-3.5, 1);
  expect(best({ cut })).toBeCloseTo(-2, 1);
});
