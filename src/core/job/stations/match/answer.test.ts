import { describe, expect, test } from 'vitest';
import type { JudgedFinding, Verdict } from '../../../advise/document.ts';
import { DEFAULT_LIMITS } from '../../../advise/limits.ts';
import { type MatchDocument, matchDocument } from '../../../advise/match.ts';
import { pairOf } from '../../../advise/matchResonance.ts';
import { say, statement } from '../../../words/statement.ts';
import type { TypicalClass } from '../../typicalClasses.ts';
import { typicalClasses } from '../../typicalClasses.ts';
import {
  answerMatch,
  evidenceDocument,
  findingOf,
  findingsOf,
  gravest,
  numberOf,
  resonanceWithinClasses,
  withheldFor,
} from './answer.ts';

const finding = (quantity: string, value: number | string = 1, verdict: Verdict = 'good'): JudgedFinding => ({
  quantity,
  value,
  unit: 'Hz',
  uncertainty: null,
  bands: [],
  note: '',
  verdict,
});
const documentOf = (more: Partial<MatchDocument>): MatchDocument => ({
  schema: 1,
  findings: [],
  advice: [],
  problems: [],
  curves: [],
  ...more,
});
const curve = (quantity: string, y: number[]) => ({ quantity, x: [1, 2], y, xUnit: 'Hz', yUnit: 'dB' });

describe('figures of an answer', () => {
  const document = documentOf({ findings: [finding('b', 2), finding('a', 1), finding('c', 'word')] });

  test('by name, in the order asked for', () => {
    expect(findingOf(document, 'a')?.value).toBe(1);
    expect(findingOf(document, 'd')).toBeNull();
    expect(findingsOf(document, ['a', 'd', 'b']).map(({ quantity }) => quantity)).toEqual(['a', 'b']);
    expect([numberOf(document, 'b'), numberOf(document, 'c'), numberOf(document, 'd')]).toEqual([2, null, null]);
  });

  test('the gravest verdict', () => {
    const of = (...verdicts: Verdict[]) => gravest(verdicts.map((verdict) => finding('a', 1, verdict)));
    const inOrder = ['info', 'good', 'undecided', 'adjust', 'bad'] as const;
    expect(of()).toBe('info');
    for (const [i, verdict] of inOrder.entries()) {
      expect(of(...inOrder.slice(0, i + 1))).toBe(verdict);
      expect(of(...inOrder.slice(0, i + 1).reverse())).toBe(verdict);
    }
  });
});

test('the limits of the job judge', () => {
  const input = { effectiveMassG: 12, cartridgeMassG: 6, complianceUmPerMn: 12, complianceAt: '10hz' } as const;
  const plain = answerMatch(input);
  expect(plain).toEqual({ found: true, document: matchDocument(input) });
  const limits = {
    ...DEFAULT_LIMITS,
    'arm-resonance-from': { ...DEFAULT_LIMITS['arm-resonance-from'], good: 30, bad: 29 },
  };
  const strict = answerMatch(input, limits);
  expect(strict).toEqual({ found: true, document: matchDocument({ ...input, limits }) });
  expect(strict).not.toEqual(plain);
  expect(answerMatch({ ...input, effectiveMassG: -1 })).toMatchObject({ found: false, why: { code: 'refused' } });
});

describe('evidence', () => {
  test('what rests on a curve carries it under its own name; the document is of no recording', () => {
    const [response, pull, other] = [
      curve('load-response', [3, 4]),
      curve('skating-force', [5, 6]),
      curve('other', [7, 8]),
    ];
    const document = documentOf({ curves: [other, response, pull], findings: [finding('a')] });
    const evidence = evidenceDocument(document);
    expect(evidence).toEqual({
      schema: 1,
      capture: { file: '', sampleRateHz: 0, channels: 0, bitDepth: 0, durationS: 0, sha256: null },
      bands: [],
      findings: document.findings,
      advice: [],
      problems: [],
      curves: [
        other,
        response,
        pull,
        ...['load-peak', 'load-peak-frequency', 'load-deviation-20khz', 'load-corner'].map((quantity) => ({
          ...response,
          quantity,
        })),
        ...['skating-force-inner', 'skating-force-outer'].map((quantity) => ({ ...pull, quantity })),
      ],
    });
  });

  test('without a curve nothing is named after it', () => {
    expect(evidenceDocument(documentOf({ curves: [curve('other', [1, 2])] })).curves).toHaveLength(1);
  });
});

test('what is withheld, a reason once, in the order first met; other problems are none', () => {
  const problem = (quantity: string | undefined, why: unknown, code = 'withheld') =>
    ({ code, severity: 'note', message: '', ...(quantity && { quantity }), values: { why } }) as never;
  const [first, second] = [statement('nothing-weighed'), statement('no-notches-typed')];
  const reasons = withheldFor({
    problems: [
      problem('a', first),
      problem('b', second),
      problem('c', first),
      problem('d', first, 'other'),
      problem(undefined, first),
      problem('e', 'a text'),
      problem('f', null),
      { code: 'withheld', severity: 'note', message: '', quantity: 'g' } as never,
    ],
  });
  expect(reasons).toEqual([
    { why: say(first), quantities: ['a', 'c'] },
    { why: say(second), quantities: ['b'] },
    { why: '', quantities: ['e', 'f', 'g'] },
  ]);
});

describe('within typical classes', () => {
  const named = (name: string) => typicalClasses.find((one) => one.name === name) as TypicalClass;
  const [arm, cartridge] = [named('medium arm'), named('medium compliance')];
  const input = {
    effectiveMassG: arm.usual,
    cartridgeMassG: 6,
    complianceUmPerMn: cartridge.usual,
    complianceAt: '10hz',
  } as const;
  const at = (effectiveMassG: number, complianceUmPerMn: number, complianceAt: '10hz' | 'static' = '10hz') => {
    const pair = pairOf({ ...input, effectiveMassG, complianceUmPerMn, complianceAt });
    if (!pair.found) throw new Error('no pair');
    return pair.vertical.resonance;
  };

  test('of both: from the heaviest and softest to the lightest and stiffest', () => {
    const both = new Map([
      ['effectiveMassG', arm],
      ['complianceUmPerMn', cartridge],
    ] as const);
    expect(resonanceWithinClasses(input, both)).toEqual({ low: at(18, 20).low, high: at(10, 10).high });
    const quoted = { ...input, complianceAt: 'static' } as const;
    expect(resonanceWithinClasses(quoted, both)).toEqual({
      low: at(18, 20, 'static').low,
      high: at(10, 10, 'static').high,
    });
  });

  test('of one the other stands as it is', () => {
    expect(resonanceWithinClasses(input, new Map([['complianceUmPerMn', cartridge]]))).toEqual({
      low: at(arm.usual, 20).low,
      high: at(arm.usual, 10).high,
    });
  });

  test('none where no class is in use that moves it, or the pair is not known', () => {
    expect(
      resonanceWithinClasses(input, new Map([['coilResistanceOhm', named('moving coil, resistance')]])),
    ).toBeNull();
    expect(resonanceWithinClasses({}, new Map([['effectiveMassG', arm]]))).toBeNull();
  });
});
