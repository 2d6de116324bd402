import { describe, expect, test } from 'vitest';
import type { JudgedFinding, Verdict } from './document.ts';
import { DEFAULT_LIMITS } from './limits.ts';
import { matchHelp } from './matchHelp.ts';
import type { MatchInput } from './matchInput.ts';
import { moves, told } from './told.fixture.ts';

const finding = (quantity: string, value: number, verdict: Verdict = 'adjust'): JudgedFinding => ({
  quantity,
  value,
  unit: '',
  uncertainty: null,
  bands: [],
  verdict,
  note: '',
});
const help = (findings: readonly JudgedFinding[], input: MatchInput = {}) => matchHelp(findings, input);
const words = (...of: Parameters<typeof help>) =>
  help(...of).flatMap(({ reasons = [] }) => reasons.map((one) => told(one)));

describe('which findings are helped', () => {
  test('only those of the table, adjust or bad', () => {
    const names = ['carried-mass', 'load-over-coil', 'line-level', 'noise-with-input', 'noise-under-reference'];
    const input = { cartridgeMassMinG: 5, coilResistanceOhm: 10, loadResistanceOhm: 20 };
    for (const name of names) {
      for (const verdict of ['adjust', 'bad'] as const)
        expect(help([finding(name, 3, verdict)], input)).toHaveLength(1);
      for (const verdict of ['good', 'info', 'undecided'] as const)
        expect(help([finding(name, 3, verdict)], input)).toEqual([]);
    }
    expect(help([finding('headroom', 3), finding('constructor', 3)])).toEqual([]);
    expect(help([])).toEqual([]);
    // noise once, for all of it together where that is known
    const both = [finding('noise-under-reference', 50), finding('noise-with-input', 45, 'good')];
    expect(help(both)).toEqual([]);
    expect(words([finding('noise-under-reference', 50), finding('noise-with-input', 45)])[0]).toContain('underDb=45');
  });
});

describe('the mass carried', () => {
  const range = { cartridgeMassMinG: 5, cartridgeMassMaxG: 12 };

  test.each([
    [3.5, 0, 'add-mass at-the-headshell 1.5 g: carried-mass-too-light', 'boundG=5 amountG=1.5', 5],
    [14, 2.1, 'remove-mass at-the-headshell 2 g: carried-mass-remove', 'boundG=12 amountG=2', 12],
    [14, 2, 'remove-mass at-the-headshell 2 g: carried-mass-lighter-cartridge', 'boundG=12 amountG=2', 12],
    [14, undefined, 'remove-mass at-the-headshell 2 g: carried-mass-lighter-cartridge', 'boundG=12 amountG=2', 12],
  ])('%d g with %d g of hardware', (mass, hardwareMassG, move, values, bound) => {
    const advice = help([finding('carried-mass', mass)], { ...range, hardwareMassG });
    expect(moves(advice)).toEqual([move]);
    expect(told(advice[0].reasons![0])).toBe(`${move.split(': ')[1]} ${values}`);
    expect(advice[0].predicts).toEqual([{ quantity: 'carried-mass', value: bound, unit: 'g' }]);
  });

  test('one end of the range alone', () => {
    expect(moves(help([finding('carried-mass', 3)], { cartridgeMassMinG: 5 }))[0]).toContain('add-mass');
    expect(moves(help([finding('carried-mass', 14)], { cartridgeMassMaxG: 12 }))[0]).toContain('remove-mass');
    // on its lower end it is not light
    expect(moves(help([finding('carried-mass', 5)], range))[0]).toContain('remove-mass');
  });
});

describe('the load over the coil', () => {
  const input: MatchInput = { coilResistanceOhm: 10, loadResistanceOhm: 1000 };
  const loss = (times: number) => Number((20 * Math.log10(1 + 1 / times)).toFixed(4));

  test('whole: eight times the coil, by n² at the input, and the ratio that suits the load there is', () => {
    const [advice] = help([finding('load-over-coil', 4)], { ...input, stepUp: 5 });
    expect(moves([advice])).toEqual([
      'raise-load at-least 2000 Ω: raise-load lower-step-up maker-load-first / caution-leads',
    ]);
    expect(advice.predicts).toEqual([{ quantity: 'load-over-coil', value: 8, unit: '' }]);
    // √(1000/80) = 3.535, rounded down so that it still suits
    expect(advice.reasons?.map((one) => told(one)).slice(0, 2)).toEqual([
      `raise-load times=4 lossDb=${loss(4)} load=2 kΩ wanted=8`,
      'lower-step-up ratio=3.5',
    ]);
  });

  test('a lower ratio is told only of a step-up, and only where one of 1 or more would do', () => {
    const codes = (more: MatchInput) =>
      help([finding('load-over-coil', 4)], { ...input, ...more })[0].reasons!.map(({ code }) => code);
    expect(codes({})).toEqual(['raise-load', 'maker-load-first']);
    expect(codes({ stepUp: 1.1 })).toContain('lower-step-up');
    expect(codes({ stepUp: 5, loadResistanceOhm: 80 })).toContain('lower-step-up');
    expect(codes({ stepUp: 5, loadResistanceOhm: 79 })).not.toContain('lower-step-up');
  });

  test.each([
    [100, '800 Ω'],
    [124.9, '999 Ω'],
    [125, '1 kΩ'],
    [5875, '47 kΩ'],
    [12.34, '98.7 Ω'],
  ])('a coil of %d Ω wants %s', (coilResistanceOhm, load) => {
    expect(words([finding('load-over-coil', 4)], { ...input, coilResistanceOhm })[0]).toContain(`load=${load} `);
  });

  test('by limits of one’s own', () => {
    const limits = { ...DEFAULT_LIMITS, 'load-over-coil': { ...DEFAULT_LIMITS['load-over-coil'], good: 20 } };
    const [advice] = help([finding('load-over-coil', 4)], { ...input, limits });
    expect([advice.amount, advice.predicts[0].value]).toEqual([200, 20]);
  });
});

describe('noise', () => {
  const shares = (coil?: number, load?: number, own?: number) => [
    finding('noise-with-input', 45),
    ...[coil, load, own].flatMap((value, i) =>
      value === undefined ? [] : [finding(['noise-of-coil', 'noise-of-load', 'noise-of-input'][i], value, 'info')],
    ),
  ];

  test.each([
    [50, 60, 70, 'noise-mostly-coil'],
    [60, 50, 70, 'noise-mostly-load'],
    [70, 60, 50, 'noise-mostly-input-or-step-up'],
    [60, undefined, undefined, 'noise-mostly-coil'],
    [undefined, 60, undefined, 'noise-mostly-load'],
    [undefined, undefined, 60, 'noise-mostly-input-or-step-up'],
  ])('%d, %d and %d dB under: %s', (coil, load, own, code) => {
    const advice = help(shares(coil, load, own));
    expect(moves(advice)).toEqual([`lower-noise null null dB: noise-too-high ${code}`]);
    expect(advice[0].predicts).toEqual([]);
    expect(told(advice[0].reasons![0])).toBe('noise-too-high underDb=45 wantedDb=60');
  });

  test('behind a step-up no other step-up is told', () => {
    expect(words(shares(70, 60, 50), { stepUp: 10 })[1]).toBe('noise-mostly-input');
    expect(words(shares(70, 60, 50), { stepUp: 1 })[1]).toBe('noise-mostly-input-or-step-up');
    const limits = { ...DEFAULT_LIMITS, 'noise-with-input': { ...DEFAULT_LIMITS['noise-with-input'], good: 70 } };
    expect(words(shares(70, 60, 50), { limits })[0]).toContain('wantedDb=70');
  });
});

describe('too little at line level', () => {
  const low = (millivolts: number, headroom?: number, converter?: number) => [
    finding('line-level', millivolts),
    ...(headroom === undefined ? [] : [finding('headroom', headroom, 'good')]),
    ...(converter === undefined ? [] : [finding('headroom-converter', converter, 'good')]),
  ];
  /** dB that 31.6228 mV lie under −10 dBV */
  const SHORT = 20;

  test('whole: the gain that reaches it', () => {
    const advice = help(low(31.6228));
    expect(moves(advice)).toEqual([`raise-gain up ${SHORT} dB: line-level-low more-gain-reaches`]);
    expect(advice[0].predicts).toEqual([{ quantity: 'line-level', value: expect.closeTo(316.228, 9), unit: 'mV' }]);
    expect(advice[0].reasons?.map((one) => told(one))).toEqual([
      `line-level-low millivolts=31.6228 shortDb=${SHORT}`,
      `more-gain-reaches amountDb=${SHORT}`,
    ]);
  });

  test('no more than either stage has room for', () => {
    for (const [headroom, converter] of [
      [28, 40],
      [40, 28],
      [28, undefined],
      [undefined, 28],
    ]) {
      const advice = help(low(31.6228, headroom, converter));
      expect(moves(advice)).toEqual(['raise-gain up 10 dB: line-level-low more-gain-room']);
      expect(advice[0].predicts[0].value).toBeCloseTo(100, 3);
    }
    expect(moves(help(low(31.6228, 40, 40)))).toEqual(['raise-gain up 20 dB: line-level-low more-gain-reaches']);
  });

  test('less than a decibel of room is none', () => {
    for (const headroom of [18.99, 12]) {
      const advice = help(low(31.6228, headroom));
      expect(moves(advice)).toEqual(['raise-gain up null dB: line-level-low no-room-for-gain']);
      expect(advice[0].predicts).toEqual([]);
    }
    expect(help(low(31.6228, 19))[0].amount).toBeCloseTo(1, 9);
  });

  test('a moving coil without a step-up is told the ratio that does it', () => {
    const codes = (input: MatchInput, headroom?: number) =>
      help(low(31.6228, headroom), input)[0]
        .reasons!.map((one) => told(one))
        .slice(2);
    expect(codes({ principle: 'moving-coil' })).toEqual(['by-step-up ratio=10']);
    expect(codes({ principle: 'moving-coil', stepUp: 1 })).toEqual(['by-step-up ratio=10']);
    expect(codes({ principle: 'moving-coil', stepUp: 2 })).toEqual([]);
    expect(codes({ principle: 'moving-magnet' })).toEqual([]);
    expect(codes({})).toEqual([]);
    // 2 dB are no ratio
    expect(codes({ principle: 'moving-coil' }, 20)).toEqual([]);
    expect(codes({ principle: 'moving-coil' }, 24)).toEqual(['by-step-up ratio=2']);
  });
});
