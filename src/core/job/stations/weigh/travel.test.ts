import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import { standardOf, travelOf } from './balance.ts';
import { knownAs } from './bench.fixture.ts';

const G = 9.80665;
const floating = { value: 0, uncertainty: null };
const weight = { counterweightMassG: 100, effectiveLengthMm: 240 };
const threaded = knownAs({ ...weight, threadPitchMm: 1.5, dialPerTurnMn: 7 });

function found(...asked: Parameters<typeof travelOf>) {
  const travel = travelOf(...asked);
  if (!travel.found) throw new Error(travel.why.code);
  return travel.value;
}

test('by moments: m g / L for each mm, the force over it as the way, the pitch as turns', () => {
  const perMm = (100 * G) / 240;
  const { forwardMm, turns, perMmMn, perTurnMn, dialErrorPercent, plan } = found(threaded, floating, 18);
  expect(perMmMn.value).toBeCloseTo(perMm, 9);
  expect(forwardMm.value).toBeCloseTo(18 / perMm, 9);
  expect(turns?.value).toBeCloseTo(18 / perMm / 1.5, 9);
  expect(perTurnMn?.value).toBeCloseTo(1.5 * perMm, 9);
  expect(dialErrorPercent?.value).toBeCloseTo(100 * (7 / (1.5 * perMm) - 1), 9);
  expect(plan.forwardMm).toBe(forwardMm.value);
  expect(plan.perMm.mn).toBe(perMmMn.value);
});

test('a mass good to 1 % and a length to 0.25 mm (k = 1) where nothing is said leave each figure as much open', () => {
  const { forwardMm, turns, perMmMn, perTurnMn, dialErrorPercent } = found(threaded, floating, 18);
  const share = 2 * Math.hypot(0.01, 0.25 / 240);
  expect(forwardMm.uncertainty).toBeCloseTo(share * forwardMm.value, 5);
  expect(turns?.uncertainty).toBeCloseTo(share * turns!.value, 5);
  expect(perMmMn.uncertainty).toBeCloseTo(share * perMmMn.value, 5);
  expect(perTurnMn?.uncertainty).toBeCloseTo(share * perTurnMn!.value, 5);
  expect(dialErrorPercent?.uncertainty).toBeCloseTo(share * (100 + dialErrorPercent!.value), 4);
});

test('what was typed with mass and length goes before what is assumed', () => {
  const typed = {
    counterweightMassG: { value: 100, uncertainty: 0.5, from: 'typed here' },
    effectiveLengthMm: { value: 240, uncertainty: 3, from: 'typed here' },
  };
  const { perMmMn } = found(typed, floating, 18);
  expect(perMmMn.uncertainty).toBeCloseTo(Math.hypot(0.5 / 100, 3 / 240) * perMmMn.value, 6);
  expect(standardOf({ value: 240, from: '' }, 0.25)).toBe(0.25);
  expect(standardOf({ value: 240, uncertainty: 3, from: '' }, 0.25)).toBe(1.5);
  expect(standardOf({ value: 240, uncertainty: 0, from: '' }, 0.25)).toBe(0);
});

test('what was weighed goes into the way that is left, backwards where it was too much', () => {
  const perMm = (100 * G) / 240;
  const { forwardMm, perMmMn } = found(threaded, { value: 20, uncertainty: 0.4 }, 18);
  expect(forwardMm.value).toBeCloseTo(-2 / perMm, 9);
  const share = 2 * Math.hypot(0.01, 0.25 / 240);
  expect(forwardMm.uncertainty).toBeCloseTo(Math.hypot((share * 2) / perMm, 0.4 / perMm), 5);
  expect(perMmMn.uncertainty).toBeCloseTo(share * perMm, 5);
});

test('a plain stub has no turns, and a ring without its scale no error', () => {
  expect(found(knownAs(weight), floating, 18)).toMatchObject({ turns: null, perTurnMn: null, dialErrorPercent: null });
  const pitched = found(knownAs({ ...weight, threadPitchMm: 1.5 }), floating, 18);
  expect(pitched.turns).not.toBeNull();
  expect(pitched.perTurnMn).not.toBeNull();
  expect(pitched.dialErrorPercent).toBeNull();
  expect(found(knownAs({ ...weight, dialPerTurnMn: 7 }), floating, 18)).toMatchObject({ turns: null, perTurnMn: null });
});

test('a dial that says what statics say is off by nothing, within what is open', () => {
  const dial = knownAs({ ...weight, threadPitchMm: 1.5, dialPerTurnMn: (1.5 * 100 * G) / 240 });
  expect(found(dial, floating, 18).dialErrorPercent?.value).toBeCloseTo(0, 9);
});

test('what is not known of arm or weight is named; what cannot be is refused', () => {
  const why = (facts: Parameters<typeof travelOf>[0], target = 18) => said(travelOf(facts, floating, target));
  const none = (text: string) => ({ found: false, missing: true, why: text });
  expect(why({})).toEqual(none('the counterweight’s mass and the effective length are not known'));
  expect(why(knownAs({ effectiveLengthMm: 240 }))).toEqual(none('the counterweight’s mass is not known'));
  expect(why(knownAs({ counterweightMassG: 100 }))).toEqual(none('the effective length is not known'));
  expect(why(threaded, 250)).toMatchObject({ found: false, missing: false, why: expect.stringContaining('250') });
});
