import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import { calibrationOf } from './gauge.ts';
import { emptyMass, type GaugeTyped, type MassRow } from './weighData.ts';

const row = (mass: string, within: string, reading: string): MassRow => ({ mass, within, reading });

function held(rows: readonly MassRow[], gauge: GaugeTyped = {}) {
  const answer = calibrationOf(rows, gauge);
  if (answer === null || !answer.found) throw new Error('no calibration');
  return answer.value;
}
/** Standard uncertainty of the factor for one weighing: 1 / (r √w), w = 1 / ((U/2)² + d²/12). */
const factorSpread = (withinG: number, digitG: number, readingG: number): number =>
  Math.hypot(withinG / 2, digitG / Math.sqrt(12)) / readingG;

test('a gauge that shows 5.05 g for 5 g reads 1 % high; what mass and digit leave open is twice their share', () => {
  const { calibration, readsHighPercent } = held([row('5', '0.02', '5,05')]);
  expect(calibration.factor).toBeCloseTo(5 / 5.05, 12);
  expect(calibration.readings).toBe(1);
  expect(readsHighPercent.value).toBeCloseTo(1, 9);
  const u = factorSpread(0.02, 0.01, 5.05);
  expect(readsHighPercent.uncertainty).toBeCloseTo((200 * u * 5.05 ** 2) / 25, 9);
  expect(held([row('5', '0.02', '4.9')]).readsHighPercent.value).toBeCloseTo(-2, 9);
});

test('the last digit counts as typed, and as usual where it is empty or cannot be read', () => {
  const spread = (digit?: string) => held([row('5', '0', '5')], { digit }).calibration.factorStandardUncertainty;
  expect(spread('0.1')).toBeCloseTo(factorSpread(0, 0.1, 5), 12);
  for (const usual of [undefined, '', 'fine']) expect(spread(usual)).toBeCloseTo(factorSpread(0, 0.01, 5), 12);
});

test('a mass may bring its own ±; what stands in the column beside it goes before that', () => {
  const spread = (mass: string, within: string) => held([row(mass, within, '5')]).calibration.factorStandardUncertainty;
  expect(spread('5 ± 0.2', '')).toBeCloseTo(factorSpread(0.2, 0.01, 5), 12);
  expect(spread('5 ± 0.2', '0.04')).toBeCloseTo(factorSpread(0.04, 0.01, 5), 12);
});

test('rows that are empty are passed over, wherever they stand; with none begun there is no calibration', () => {
  expect(calibrationOf([], {})).toBeNull();
  expect(calibrationOf([emptyMass, emptyMass], {})).toBeNull();
  const two = held([emptyMass, row('5', '0.01', '5.1'), emptyMass, row('10', '0.01', '10.2')]);
  expect(two.calibration.readings).toBe(2);
  expect(two.readsHighPercent.value).toBeCloseTo(2, 9);
});

test('a row that is begun and not complete, or cannot be read, is named by its place', () => {
  const why = (...rows: MassRow[]) => said(calibrationOf(rows, {}));
  const lacks = (place: number) => ({
    found: false,
    missing: true,
    why: `Row ${place} is not complete: the mass, its uncertainty and what the gauge showed are needed.`,
  });
  const whole = row('5', '0.01', '5');
  expect(why(row('5', '', '5'))).toEqual(lacks(1));
  expect(why(row('', '0.1', '5'))).toEqual(lacks(1));
  expect(why(row('', '0.1', ''))).toEqual(lacks(1));
  expect(why(whole, row('5', '0.1', ''))).toEqual(lacks(2));
  expect(why(emptyMass, row('5 ± 0.1', '', ''))).toEqual(lacks(2));
  expect(why(whole, emptyMass, row('5', '0.1', 'much'))).toEqual({
    found: false,
    missing: false,
    why: 'Row 3: Found “much”; a number, 0.05 to 110 g was expected.',
  });
  expect(why(row('500', '0.1', ''))).toMatchObject({
    missing: false,
    why: expect.stringContaining('Row 1: Found 500'),
  });
});

test('a mass that is known no closer than it weighs is refused', () => {
  expect(calibrationOf([row('0.5', '0.9', '0.5')], {})).toMatchObject({ found: false, missing: false });
});
