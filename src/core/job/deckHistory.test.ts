import { describe, expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import { alike, type DeckVisit, deckFigures, deckHistoryCsv, type HeardCapture } from './deckHistory.ts';

const finding = (value: number | string, more: Partial<JudgedFinding> = {}): JudgedFinding => ({
  quantity: 'speed-error',
  value,
  unit: '%',
  uncertainty: 0.3,
  bands: [0],
  note: '',
  verdict: 'info',
  ...more,
});
const at = (day: number) => `2026-03-0${day}T09:00:00.000Z`;
const heard = (day: number, findings: readonly JudgedFinding[], more: Partial<HeardCapture> = {}): HeardCapture => ({
  id: `c${day}`,
  sha256: `s${day}`,
  bandMarks: ['tone left'],
  findings,
  heardAt: at(day),
  ...more,
});
const visit = (
  number: number,
  received: readonly HeardCapture[],
  since: readonly HeardCapture[] = [],
  cartridge = { received: 'A', left: 'A' },
): DeckVisit => ({ number, cartridge, received, since });

const limits = { 'speed-error': { good: 0.3, bad: 1, sense: 'below', source: '' } } as const;
const readings = (...visits: DeckVisit[]) => deckFigures(visits, {})[0].readings;
const drifts = (...visits: DeckVisit[]) => readings(...visits).map(({ drift }) => drift);

describe('a deck’s figures', () => {
  it('hold how it came first and how it left last, with record, interval and cartridge', () => {
    const bounded = finding(0.5, { low: 0.1, high: null, repeatability: 0.05, verdict: 'adjust' });
    const cartridge = { received: 'A', left: 'B' };
    const visits = [
      visit(
        7,
        [heard(1, [bounded]), heard(2, [finding(9)])],
        [heard(3, [finding(8)]), heard(4, [finding(0.1)], { record: { key: 'r' } })],
        cartridge,
      ),
    ];
    expect(deckFigures(visits, limits)).toEqual([
      {
        quantity: 'speed-error',
        unit: '%',
        limit: { good: 0.3, bad: 1, sense: 'below' },
        readings: [
          {
            job: 7,
            at: at(1),
            when: 'received',
            value: 0.5,
            uncertainty: 0.3,
            repeatability: 0.05,
            low: 0.1,
            high: null,
            verdict: 'adjust',
            cartridge: 'A',
            drift: null,
          },
          {
            job: 7,
            at: at(4),
            when: 'left',
            value: 0.1,
            uncertainty: 0.3,
            verdict: 'info',
            record: 'r',
            cartridge: 'B',
            drift: null,
          },
        ],
      },
    ]);
  });

  it('stand apart by channel, and have no limit where nothing or more than one thing limits them', () => {
    const left = finding(20, { quantity: 'separation-left-to-right', channel: 'left', unit: 'dB' });
    const right = { ...left, channel: 'right' as const };
    const figures = deckFigures([visit(1, [heard(1, [left, right])])], {});
    expect(figures.map(({ channel, limit, readings }) => [channel, limit, readings.length])).toEqual([
      ['left', null, 1],
      ['right', null, 1],
    ]);
    expect(deckFigures([visit(1, [heard(1, [finding(1)])])], {})[0]).not.toHaveProperty('channel');
    expect(deckFigures([], limits)).toEqual([]);
  });
});

describe('drift', () => {
  const left = visit(1, [], [heard(1, [finding(0.1)])]);

  it('is what came back less what left, with both uncertainties; beyond only where it is larger', () => {
    const came = (value: number) => drifts(left, visit(2, [heard(2, [finding(value, { uncertainty: 0.4 })])]));
    expect(came(0.7)).toEqual([
      null,
      { change: expect.closeTo(0.6, 12), uncertainty: expect.closeTo(0.5, 12), beyond: true },
    ]);
    expect(came(0.55)[1]).toEqual({
      change: expect.closeTo(0.45, 12),
      uncertainty: expect.closeTo(0.5, 12),
      beyond: false,
    });
    expect(came(-0.5)[1]).toEqual({
      change: expect.closeTo(-0.6, 12),
      uncertainty: expect.closeTo(0.5, 12),
      beyond: true,
    });
    const whole = [
      visit(1, [], [heard(1, [finding(1, { uncertainty: 3 })])]),
      visit(2, [heard(2, [finding(6, { uncertainty: 4 })])]),
    ];
    expect(drifts(...whole)[1]?.beyond).toBe(false);
  });

  it('cannot be judged where one of the two has no uncertainty', () => {
    const bare = (value: number) => finding(value, { uncertainty: null });
    const open = { change: expect.closeTo(0.4, 12), uncertainty: null, beyond: null };
    expect(drifts(left, visit(2, [heard(2, [bare(0.5)])]))[1]).toEqual(open);
    expect(drifts(visit(1, [], [heard(1, [bare(0.1)])]), visit(2, [heard(2, [finding(0.5)])]))[1]).toEqual(open);
  });

  it('is none within a job, none of the same file, none of words, none of another cartridge', () => {
    expect(drifts(visit(1, [heard(1, [finding(1)])], [heard(2, [finding(2)])]))).toEqual([null, null]);
    const back = (more: Partial<HeardCapture>) => drifts(left, visit(2, [heard(2, [finding(1)], more)]))[1];
    expect(back({ sha256: 's1' })).toBeNull();
    expect(back({ sha256: null })).not.toBeNull();
    expect(
      drifts(
        visit(1, [], [heard(1, [finding(1)], { sha256: null })]),
        visit(2, [heard(2, [finding(2)], { sha256: null })]),
      )[1],
    ).toMatchObject({ change: 1 });
    expect(drifts(left, visit(2, [heard(2, [finding('normal')])]))[1]).toBeNull();
    expect(drifts(visit(1, [], [heard(1, [finding('normal')])]), visit(2, [heard(2, [finding(1)])]))[1]).toBeNull();
    const other = { received: 'B', left: 'B' };
    expect(drifts(left, visit(2, [heard(2, [finding(1)])], [], other))[1]).toBeNull();
    expect(drifts(left, visit(2, [heard(2, [finding(1)])], [], { received: '', left: 'B' }))[1]).not.toBeNull();
  });

  it('is counted from the last reading, as received where the job before only received', () => {
    const came = [1, 2, 3].map((day) => visit(day, [heard(day, [finding(day ** 2)])]));
    expect(drifts(...came).map((one) => one?.change ?? null)).toEqual([null, 3, 5]);
    expect(drifts(came[0], visit(2, [], [heard(2, [finding(5)])]), came[2]).map((one) => one?.change ?? null)).toEqual([
      null,
      null,
      4,
    ]);
  });
});

it('names of one cartridge differ in blanks and capitals alone; none may be any', () => {
  expect(alike(' Bench MM', 'bench mm ')).toBe(true);
  expect(alike('', 'b')).toBe(true);
  expect(alike('a', ' ')).toBe(true);
  expect(alike('a', 'b')).toBe(false);
});

it('as CSV it is one row a reading', () => {
  const cartridge = { received: 'A', left: 'A' };
  const figures = [
    ...deckFigures(
      [
        visit(1, [heard(1, [finding(0.5, { low: 0.25, high: null })])], [], cartridge),
        visit(2, [heard(2, [finding(2)])], [], cartridge),
        visit(3, [heard(3, [finding(2.125)])], [], cartridge),
        visit(4, [heard(4, [finding(1, { uncertainty: null, low: 0.5, high: 2 })])], [], cartridge),
      ],
      limits,
    ),
    ...deckFigures(
      [visit(1, [heard(1, [finding('swapped', { quantity: 'channel-order', channel: 'left', unit: '–' })])])],
      {},
    ),
  ];
  const [spread] = figures[0].readings.slice(1).map(({ drift }) => drift?.uncertainty);
  const csv = deckHistoryCsv({
    deck: { id: 'd', name: 'deck', description: '' },
    jobs: [],
    older: 0,
    figures: [...figures],
  });
  expect(csv.split('\r\n')).toEqual([
    'deck,quantity,channel,unit,good,bad,job,at,when,value,uncertainty,verdict,cartridge,drift,drift_uncertainty,drift_beyond_uncertainty,low,high',
    `deck,speed-error,,%,0.3,1,1,${at(1)},received,0.5,0.3,info,A,,,,0.25,`,
    `deck,speed-error,,%,0.3,1,2,${at(2)},received,2,0.3,info,A,1.5,${spread},yes,,`,
    `deck,speed-error,,%,0.3,1,3,${at(3)},received,2.125,0.3,info,A,0.125,${spread},no,,`,
    `deck,speed-error,,%,0.3,1,4,${at(4)},received,1,,info,A,-1.125,,,0.5,2`,
    `deck,channel-order,left,–,,,1,${at(1)},received,swapped,0.3,info,A,,,,,`,
    '',
  ]);
});
