import { describe, expect, test } from 'vitest';
import { benchBounds } from '../units/benchBounds.ts';
import { statement } from '../words/statement.ts';
import { matchDocument } from './match.ts';
import { matchHelp } from './matchHelp.ts';
import { checkMatchInput, emptyAnswer, type MatchFigure, matchFigures, missing, withhold } from './matchInput.ts';
import { matchResonance } from './matchResonance.ts';

const names = Object.keys(matchFigures) as MatchFigure[];

describe('bounds of what Match is told', () => {
  test.each(names)('%s: both ends are taken, beyond them it is refused by its name', (name) => {
    const { says, unit, low, high } = matchFigures[name];
    const { min, max, unit: bench } = benchBounds[name];
    expect([low, high, unit]).toEqual([min, max, bench]);
    for (const value of [low, high]) expect(() => checkMatchInput({ [name]: value })).not.toThrow();
    for (const value of [low - 0.01, high * 1.01, Number.NaN]) {
      expect(() => checkMatchInput({ [name]: value })).toThrow(`${says} is ${value}`);
    }
  });

  test.each([
    ['trackingForceMinMn', 'trackingForceMaxMn', 20, true],
    ['grooveInnerMm', 'grooveOuterMm', 60, false],
    ['stubFromMm', 'stubToMm', 30, true],
    ['cartridgeMassMinG', 'cartridgeMassMaxG', 8, true],
    ['wantedCapacitanceMinPf', 'wantedCapacitanceMaxPf', 200, true],
  ] as const)('%s not over %s', (less, more, at, alike) => {
    const check = (a: number, b: number) => () => checkMatchInput({ [less]: a, [more]: b });
    expect(check(at, at + 1)).not.toThrow();
    expect(check(at + 1, at)).toThrow(
      `${matchFigures[less].says} is ${at + 1} ${matchFigures[less].unit}, over ${matchFigures[more].says} of ${at} ${matchFigures[less].unit}; the first must be the lower`,
    );
    if (alike) expect(check(at, at)).not.toThrow();
    else expect(check(at, at)).toThrow(RangeError);
    for (const name of [less, more]) expect(() => checkMatchInput({ [name]: at })).not.toThrow();
  });
});

test('what is missing is listed in words, in the order asked for', () => {
  const all = ['cartridgeMassG', 'complianceUmPerMn', 'complianceAt'] as const;
  expect(missing({ cartridgeMassG: 7, complianceUmPerMn: 12, complianceAt: '10hz' }, all)).toBeNull();
  const quoted = 'how the compliance is quoted (static, at 10 Hz or at 100 Hz)';
  const told = (what: string, count: number) => ({ code: 'not-known', values: { what, count } });
  expect(missing({ cartridgeMassG: 7, complianceAt: '10hz' }, all)).toEqual(told('the compliance', 1));
  expect(missing({ cartridgeMassG: 7 }, all)).toEqual(told(`the compliance and ${quoted}`, 2));
  expect(missing({}, all)).toEqual(told(`the cartridge’s mass, the compliance and ${quoted}`, 3));
});

test('what is withheld is a note for each quantity, and nothing else', () => {
  const why = statement('not-known', { what: 'the gain', count: 1 });
  expect(withhold([], why)).toEqual(emptyAnswer);
  expect(withhold(['headroom', 'line-level'], why)).toEqual({
    ...emptyAnswer,
    problems: ['headroom', 'line-level'].map((quantity) => ({
      code: 'withheld',
      severity: 'note',
      message: expect.stringContaining('the gain is not known'),
      values: { quantity, why },
      quantity,
    })),
  });
});

test('the document lays all answers together in their order, help behind all advice', () => {
  const input = {
    effectiveMassG: 4,
    cartridgeMassG: 3,
    hardwareMassG: 0.5,
    complianceUmPerMn: 10,
    complianceAt: '10hz',
    cartridgeMassMinG: 5,
    trackingForceMn: 18,
    effectiveLengthMm: 239.3,
    spindleToPivotMm: 222,
    outputMv: 5,
    gainDb: 40,
    maxOutputV: 8,
  } as const;
  const { schema, findings, advice, problems, curves } = matchDocument(input);
  expect(schema).toBe(1);
  expect(findings.map(({ quantity }) => quantity)).toEqual([
    'arm-resonance',
    'carried-mass',
    'headroom',
    'gain-wanted',
    'line-level',
    'skating-force-inner',
    'skating-force-outer',
  ]);
  expect(advice).toEqual([...matchResonance(input).advice, ...matchHelp(findings, input)]);
  expect(advice).toHaveLength(2);
  expect(problems.map(({ quantity }) => quantity)).toEqual([
    'load-peak',
    'load-peak-frequency',
    'load-deviation-20khz',
    'thermal-noise',
    'noise-under-reference',
  ]);
  expect(curves.map(({ quantity }) => quantity)).toEqual([
    'resonance-7hz',
    'resonance-8hz',
    'resonance-10hz',
    'resonance-12hz',
    'skating-force',
  ]);
  expect(() => matchDocument({ ...input, gainDb: 200 })).toThrow(/gain is 200/);
});
