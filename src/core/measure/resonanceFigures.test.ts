/** Several ways to the arm's resonance as one figure, from ways that tones, drops and sweeps written down by hand make. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { Finding } from './finding.ts';
import { madeSide } from './handMade.fixture.ts';
import { resonanceFigures } from './resonanceFigures.ts';
import { type FoundWays, type ResonanceWay, resonanceWays, type WayFigure } from './resonanceWays.ts';

vi.mock('./resonanceWays.ts', () => ({ resonanceWays: vi.fn() }));

const figure = (value: number, own: number, ...doubts: [string, number][]): WayFigure => ({
  value,
  own,
  doubts: doubts.map(([code, size]) => ({ of: { code, values: {} }, size })),
});
const way = (of: ResonanceWay['way'], hz: WayFigure, q: WayFigure, more: Partial<ResonanceWay> = {}): ResonanceWay => ({
  way: of,
  direction: 'lateral',
  hz,
  q,
  bands: [],
  notes: [],
  ...more,
});
const side = madeSide();
function told(ways: ResonanceWay[], more: Partial<FoundWays> = {}) {
  const found: FoundWays = { ways, failed: [], curves: [], lowSweeps: [], ...more };
  vi.mocked(resonanceWays).mockReturnValue(found);
  return resonanceFigures(side, true, false);
}
const sizes = ({ budget }: Finding) => Object.fromEntries(budget!.map((line) => [line.of.code, line.size]));
const codes = ({ notes }: Finding) => notes.map(({ code }) => code);
const [SWEEP, DROP, NOISE] = [
  way('sweep', figure(10, 0.3, ['method', 0.4]), figure(3, 0.3), { notes: [statement('method')], bands: [4, 5] }),
  way('ring-down', figure(10.2, 0.2), figure(2.5, 0.4, ['method', 0.3], ['excitation', 0.2]), { bands: [5, 6] }),
  way('noise', figure(10.1, 1), figure(2, 1), { bands: [9] }),
];

beforeEach(() => vi.mocked(resonanceWays).mockReset());

it('nothing is told where there is no way; what failed is withheld with its reason', () => {
  expect(told([])).toEqual({ findings: [], problems: [], curves: [], lowSweeps: [] });
  const failed = [
    { direction: 'vertical', why: statement('low-sweep-not-found') },
    { direction: 'vertical', why: statement('low-sweep-spoiled') },
  ] as const;
  const curves = [{ quantity: 'x', x: [], y: [], xUnit: '', yUnit: '' }];
  const lowSweeps = [{ sheetBand: 1, startS: 2, endS: 3, quantities: [] }];
  expect(told([], { failed: [...failed], curves, lowSweeps })).toEqual({
    findings: [],
    problems: [withheld('arm-resonance-vertical', statement('low-sweep-not-found'))],
    curves,
    lowSweeps,
  });
  expect(vi.mocked(resonanceWays)).toHaveBeenCalledWith(side, true, false);
});

it('noise tells none alone, and a failed sweep is said first', () => {
  const alone = statement('resonance-noise-alone', { hz: 10.1 });
  expect(told([NOISE]).problems).toEqual([withheld('arm-resonance-lateral', alone)]);
  const failed = [{ direction: 'lateral', why: statement('low-sweep-not-found') } as const];
  expect(told([NOISE], { failed }).problems).toEqual([
    withheld('arm-resonance-lateral', statement('low-sweep-not-found')),
  ]);
});

describe('one way', () => {
  it('is the figure itself, with Q beside it and the peak that follows', () => {
    const { findings, problems } = told([SWEEP]);
    expect(problems).toEqual([]);
    expect(findings).toHaveLength(2);
    const [hz, q] = findings;
    expect(hz).toMatchObject({
      quantity: 'arm-resonance-lateral',
      value: 10,
      unit: 'Hz',
      bands: [4, 5],
      uncertainty: expect.closeTo(0.5, 12),
    });
    expect(sizes(hz)).toEqual({ signal: 0.3, method: 0.4 });
    expect(q).toMatchObject({ quantity: 'arm-resonance-lateral-q', value: 3, unit: '', bands: [4, 5], notes: [] });
    // |H| is largest at f₀/√(1 − 1/2Q²), Q/√(1 − 1/4Q²) there
    const peakHz = 10 / Math.sqrt(1 - 1 / 18);
    expect(hz.notes).toEqual([
      statement('method'),
      statement('resonance-one-way', { ways: statement('way-sweep', { hz: 10 }) }),
      {
        code: 'resonance-peak',
        values: {
          peakHz: expect.closeTo(peakHz, 9),
          peakDb: expect.closeTo(20 * Math.log10(3 / Math.sqrt(1 - 1 / 36)), 9),
        },
      },
    ]);
  });

  it('below Q = 0.71 there is no peak', () => {
    const last = (q: number) => codes(told([way('sweep', figure(10, 0.1), figure(q, 0.1))]).findings[0]).at(-1);
    expect(last(Math.SQRT1_2 * 0.999)).toBe('resonance-no-peak');
    expect(last(Math.SQRT1_2 * 1.001)).toBe('resonance-peak');
  });
});

describe('several ways', () => {
  it('weigh by 1/U², their own parts by squares, one cause together', () => {
    const { findings } = told([SWEEP, DROP]);
    const [hz, q] = findings;
    // U 0.5 and 0.2: weights 4 and 25
    const [a, b] = [4 / 29, 25 / 29];
    expect(hz.value).toBeCloseTo(10 * a + 10.2 * b, 12);
    expect(sizes(hz)).toEqual({
      signal: expect.closeTo(Math.hypot(0.3 * a, 0.2 * b), 12),
      method: expect.closeTo(0.4 * a, 12),
    });
    expect(hz.bands).toEqual([4, 5, 6]);
    expect(hz.notes[1]).toEqual(
      statement('resonance-ways-agree', {
        ways: statement('two-ways', {
          one: statement('way-sweep', { hz: 10 }),
          other: statement('way-ring-down', { hz: 10.2 }),
        }),
      }),
    );
    const [u, v] = [1 / 0.09, 1 / 0.29];
    expect(q.value).toBeCloseTo((3 * u + 2.5 * v) / (u + v), 12);
    expect(sizes(q)).toEqual({
      signal: expect.closeTo(Math.hypot(0.3 * u, 0.4 * v) / (u + v), 12),
      method: expect.closeTo((0.3 * v) / (u + v), 12),
      excitation: expect.closeTo((0.2 * v) / (u + v), 12),
    });
  });

  it('one cause in several ways moves them together', () => {
    const both = [1, 2].map((u) => way('sweep', figure(10, 0, ['method', u]), figure(3, 1)));
    const [hz] = told(both).findings;
    expect(sizes(hz).method).toBeCloseTo((4 * 1 + 1 * 2) / 5, 12);
  });

  it('a way without any doubt does not end it', () => {
    const [hz] = told([way('sweep', figure(10, 0), figure(3, 0)), DROP]).findings;
    expect(hz.value).toBeCloseTo(10, 6);
  });

  it('that contradict one another beyond what may lie between them tell none', () => {
    const { resonances } = assumedInTests.agreement;
    const at = (hz: number) => way('speed', figure(hz, 0.4, ['method', 0.3]), figure(3, 1));
    // 0.5 and 0.5 together
    const limit = resonances * Math.SQRT1_2;
    for (const sign of [1, -1]) {
      expect(told([SWEEP, at(10 + sign * 0.999 * limit)]).findings).toHaveLength(2);
      const off = 10 + sign * 1.001 * limit;
      expect(told([SWEEP, at(off)])).toMatchObject({
        findings: [],
        problems: [
          withheld(
            'arm-resonance-lateral',
            statement('resonance-ways-disagree', {
              ways: statement('two-ways', {
                one: statement('way-sweep', { hz: 10 }),
                other: statement('way-speed', { hz: off }),
              }),
            }),
          ),
        ],
      });
    }
    expect(told([SWEEP, at(10), at(12)]).findings).toEqual([]);
  });

  it('each direction stands for itself', () => {
    const up = { ...DROP, direction: 'vertical' } as const;
    expect(told([SWEEP, up]).findings.map(({ quantity }) => quantity)).toEqual([
      'arm-resonance-lateral',
      'arm-resonance-lateral-q',
      'arm-resonance-vertical',
      'arm-resonance-vertical-q',
    ]);
  });
});

describe('groove noise', () => {
  it('joins where it agrees', () => {
    const [hz] = told([NOISE, SWEEP]).findings;
    expect(hz.bands).toEqual([4, 5, 9]);
    expect(hz.value).toBeCloseTo((10 * 4 + 10.1 * 1) / 5, 12);
    expect(codes(hz)).not.toContain('resonance-noise-apart');
  });

  it('is told apart where it does not, and changes nothing', () => {
    const [hz, q] = told([SWEEP, { ...NOISE, hz: figure(13, 1) }]).findings;
    expect([hz.value, q.value]).toEqual([10, 3]);
    expect(hz.bands).toEqual([4, 5]);
    expect(hz.notes).toContainEqual(statement('resonance-noise-apart', { hz: 13 }));
  });
});
