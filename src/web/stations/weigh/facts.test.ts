import { describe, expect, test } from 'vitest';
import { demoArm } from '../../../core/job/demoParts.ts';
import { readMatch } from '../../../core/job/stations/match/matchData.ts';
import { type Elsewhere, type FactLayer, inputOf, readFacts } from './facts.ts';
import { forceWithin, readForce, TIP_FORCE, withUnit } from './force.ts';

const match = readMatch({
  parts: { arm: { id: null, revision: 0, part: demoArm } },
  typed: { hardwareMassG: '1.2' },
});
const elsewhere: Elsewhere = { ...match, hardware: null };
const layer = (typed: FactLayer['typed'], from = 'typed here', forceUnit: FactLayer['forceUnit'] = 'g'): FactLayer => ({
  typed,
  forceUnit,
  from,
});

describe('where a figure comes from', () => {
  test('typed here, then at the other station, then Fit, then Match', () => {
    const layers = [layer({ effectiveLengthMm: '230' }), layer({ stubToMm: '60' }, 'typed at Weigh')];
    const known = readFacts(layers, { ...elsewhere, hardware: { massG: 0.8, uncertaintyG: 0.1, by: 'weighed' } });
    expect(known.effectiveLengthMm).toEqual({ value: 230, from: 'typed here' });
    expect(known.stubToMm).toEqual({ value: 60, from: 'typed at Weigh' });
    expect(known.hardwareMassG).toEqual({ value: 0.8, from: 'Fit' });
    expect(known.stubFromMm).toEqual({ value: demoArm.stubFromMm, from: 'Match' });
    expect(readFacts(layers, elsewhere).hardwareMassG).toEqual({ value: 1.2, from: 'Match' });
    expect(known.verticalAngleDeg).toBeUndefined();
  });

  test('what is typed and cannot be used is left out, and nothing of Match’s takes its place', () => {
    const known = readFacts([layer({ effectiveLengthMm: 'long' })], elsewhere);
    expect(known.effectiveLengthMm).toBeUndefined();
    expect(inputOf(known, match).effectiveLengthMm).toBeUndefined();
    expect(inputOf(known, match).effectiveMassG).toBe(demoArm.effectiveMassG);
  });

  test('a bare force is in the unit chosen where it was typed', () => {
    const force = (forceUnit: FactLayer['forceUnit'], text: string) =>
      readFacts([layer({ trackingForceMinMn: text }, 'typed here', forceUnit)], elsewhere).trackingForceMinMn?.value;
    expect(force('g', '1.5')).toBeCloseTo(14.709975, 9);
    expect(force('mN', '15')).toBe(15);
    expect(force('mN', '1,5 g')).toBeCloseTo(14.709975, 9);
  });
});

describe('forces as they are typed', () => {
  test('a slip of the unit is caught, with what was found and the bounds', () => {
    expect(readForce('18', 'g', TIP_FORCE)).toEqual({ wrong: 'Found 18 g; 0.408 to 15.3 g was expected.' });
    expect(readForce('1.8', 'mN', TIP_FORCE)).toEqual({ wrong: 'Found 1.8 mN; 4 to 150 mN was expected.' });
    expect(readForce('much', 'g', TIP_FORCE)).toMatchObject({ wrong: expect.stringContaining('Found “much”') });
    expect(readForce('−2', 'g', TIP_FORCE)).toHaveProperty('wrong');
    expect(readForce(' ', 'g', TIP_FORCE)).toEqual({ empty: true });
  });

  test('another choice of unit changes no meaning', () => {
    for (const [text, was] of [
      ['1,8', 'g'],
      ['18', 'mN'],
    ] as const) {
      const other = was === 'g' ? 'mN' : 'g';
      expect(readForce(withUnit(text, was), other, TIP_FORCE)).toEqual(readForce(text, was, TIP_FORCE));
    }
    expect(withUnit('18 mN', 'g')).toBe('18 mN');
    expect(withUnit(undefined, 'g')).toBeUndefined();
  });

  test('both units with the uncertainty rounded up', () => {
    expect(forceWithin(17.843, 0.1651)).toBe('17.84 ± 0.17 mN (1.819 ± 0.017 g)');
    expect(forceWithin(18, null)).toBe('18.0 mN (1.84 g)');
  });
});
