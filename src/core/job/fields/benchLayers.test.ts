import { describe, expect, test } from 'vitest';
import { demoArm, demoParts } from '../demoParts.ts';
import { benchAt, figuresOf, inputOf, knownElsewhere, type StationsTyped } from './benchFacts.ts';

const picked = (part: unknown) => ({ id: null, revision: 0, part });
const cartridge = demoParts.find(({ name }) => name === 'bench moving magnet');
const match = { parts: { arm: picked(demoArm), cartridge: picked(cartridge) } };

describe('what Match has of the parts', () => {
  test('each figure of arm and cartridge that Weigh and Height ask for', () => {
    const values = figuresOf(benchAt('weigh', { match }).facts);
    expect(values).toEqual({
      cartridgeMassG: 6.5,
      trackingForceMinMn: 14,
      trackingForceMaxMn: 19,
      trackingForceRecommendedMn: 17,
      verticalAngleDeg: 22,
      effectiveLengthMm: 243.48,
      spindleToPivotMm: 226.5,
      offsetDeg: 22.57,
      counterweightMassG: 110,
      threadPitchMm: 1.5,
      dialPerTurnMn: 7,
      armMomentGMm: 3200,
      stubFromMm: 28,
      stubToMm: 58,
      movingMassG: 215,
      centreBelowPivotMm: 4,
      pivotAboveTipMm: 18,
    });
    expect(benchAt('weigh', {}).facts).toEqual({});
    expect(figuresOf({})).toEqual({});
  });
});

describe('which station goes first', () => {
  const place = { arm: { known: 'effective-length', effectiveLength: '239' } };
  const weigh = { facts: { effectiveLengthMm: '240', movingMassG: '200' } };
  const height = { facts: { effectiveLengthMm: '241', movingMassG: '201' } };
  const length = (at: Parameters<typeof benchAt>[0], stations: StationsTyped) =>
    benchAt(at, stations).facts.effectiveLengthMm;

  test('the one that asks, then Place, Weigh, Height, then Match', () => {
    const all = { place, weigh, height, match };
    expect(length('weigh', all)).toEqual({ value: 240, from: 'typed here' });
    expect(length('height', all)).toEqual({ value: 241, from: 'typed here' });
    expect(length('place', all)).toEqual({ value: 239, from: 'typed here' });
    expect(length('run', all)).toEqual({ value: 239, from: 'typed at Place' });
    expect(length('run', { weigh, height, match })).toEqual({ value: 240, from: 'typed at Weigh' });
    expect(length('run', { height, match })).toEqual({ value: 241, from: 'typed at Height' });
    expect(length('intake', { match })).toEqual({ value: 243.48, from: 'from Match' });
  });

  test('what stands behind a field leaves out the station’s own, and of one that asks for none nothing', () => {
    const all = { place, weigh, height, match };
    expect(benchAt('weigh', all).behind('effectiveLengthMm')).toEqual({ value: 239, from: 'typed at Place' });
    expect(benchAt('weigh', { weigh, match }).behind('effectiveLengthMm')).toEqual({
      value: 243.48,
      from: 'from Match',
    });
    expect(benchAt('run', all).behind('effectiveLengthMm')).toEqual({ value: 239, from: 'typed at Place' });
    expect(benchAt('run', all).behind('hardwareMassG')).toBeNull();
    expect(benchAt('weigh', all).behind('movingMassG')).toEqual({ value: 201, from: 'typed at Height' });
  });

  test('Place tells only the length that it was asked by', () => {
    const both = { spindleToPivot: '222', effectiveLength: '239' };
    const facts = (known: string | undefined) => {
      const { effectiveLengthMm, spindleToPivotMm } = benchAt('weigh', {
        place: { arm: { ...both, ...(known && { known }) } },
      }).facts;
      return [spindleToPivotMm?.value, effectiveLengthMm?.value];
    };
    expect(facts(undefined)).toEqual([222, undefined]);
    expect(facts('spindle-to-pivot')).toEqual([222, undefined]);
    expect(facts('effective-length')).toEqual([undefined, 239]);
    expect(facts('overhang')).toEqual([undefined, undefined]);
    expect(
      benchAt('weigh', { place: { arm: { known: 'effective-length' } }, match }).facts.effectiveLengthMm?.from,
    ).toBe('from Match');
    expect(benchAt('weigh', { place: {} }).facts).toEqual({});
  });

  test('bare forces are grams until Weigh says otherwise, at every station', () => {
    const typed = { facts: { trackingForceMinMn: '2', dialPerTurnMn: '1', stubFromMm: '30' } };
    expect(figuresOf(benchAt('height', { height: typed }).facts)).toEqual({
      trackingForceMinMn: 2 * 9.80665,
      dialPerTurnMn: 9.80665,
      stubFromMm: 30,
    });
    expect(figuresOf(benchAt('height', { height: typed, weigh: { forceUnit: 'mN' } }).facts)).toEqual({
      trackingForceMinMn: 2,
      dialPerTurnMn: 1,
      stubFromMm: 30,
    });
  });
});

test('Place’s own answer counts from Height on, before what Match has once Place is begun', () => {
  const place = { arm: { spindleToPivot: '222' } };
  for (const at of ['height', 'tilt', 'run', 'hand-over'] as const) {
    expect(benchAt(at, { place, match }).facts.offsetDeg?.from, at).toBe('as Place aims at it');
  }
  for (const at of ['match', 'fit', 'weigh', 'place'] as const) {
    expect(benchAt(at, { place, match }).facts.offsetDeg?.from, at).toBe('from Match');
  }
  // not begun: it rests on what Match has, and fills only what that leaves open
  const { offsetDeg: _, ...unstated } = demoArm;
  const filled = benchAt('height', { match: { parts: { arm: picked(unstated) } } }).facts;
  expect(filled.offsetDeg?.from).toBe('as Place aims at it');
  expect(filled.effectiveLengthMm?.from).toBe('from Match');
  expect(filled.threadPitchMm?.from).toBe('from Match');
  expect(benchAt('height', {}).facts).toEqual({});
});

test('what the other stations know of the arm, for Place', () => {
  expect(knownElsewhere({ match })).toEqual({ spindleToPivotMm: 226.5, effectiveLengthMm: 243.48 });
  expect(knownElsewhere({ place: { arm: { spindleToPivot: '222' } } })).toEqual({});
  expect(knownElsewhere({ weigh: { facts: { effectiveLengthMm: '240' } } })).toEqual({ effectiveLengthMm: 240 });
});

test('the figures as Match takes them: what the facts say, with what only Match knows, and no force that was typed there', () => {
  const typed = { trackingForceMn: '18', loadCapacitancePf: '220', hardwareMassG: '1.2' };
  const { facts, match: reading } = benchAt('weigh', { match: { ...match, typed } });
  const input = inputOf(facts, reading);
  const { trackingForceMn, ...rest } = reading.input;
  expect(trackingForceMn).toBe(18);
  expect(input).toEqual(rest);
  const own = { cartridgeMassG: { value: 7, from: 'typed here' } };
  const bare = inputOf(own, reading);
  expect(bare.cartridgeMassG).toBe(7);
  expect(bare.loadCapacitancePf).toBe(220);
  expect(bare.effectiveMassG).toBe(10);
  for (const name of ['hardwareMassG', 'effectiveLengthMm', 'stubToMm', 'trackingForceMn'] as const) {
    expect(bare, name).not.toHaveProperty(name);
  }
  // figures that Match has no name for stay out
  expect(inputOf({ offsetDeg: { value: 22, from: '' } }, benchAt('weigh', {}).match)).toEqual({});
});
