import { expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import type { CaptureEntry, Job } from './api.ts';
import type { DeckHistory } from './deckHistory.ts';
import { lastChange, repeatsOf } from './repeats.ts';
import { repeatWords } from './repeatWords.ts';

const finding = (quantity: string, value: number): JudgedFinding => ({
  quantity,
  value,
  unit: 'µm',
  uncertainty: 0.6,
  repeatability: 0.2,
  bands: [0],
  note: '',
  verdict: 'info',
});
const at = (day: number) => `2026-03-${String(day).padStart(2, '0')}T10:00:00.000Z`;
const capture = (day: number, findings: JudgedFinding[], key: string | null = 'a', set: Partial<CaptureEntry> = {}) =>
  ({
    id: `c${day}`,
    heardAt: at(day),
    station: 'run',
    practice: false,
    saidKind: 'pass',
    saidEpoch: null,
    setAside: null,
    unfit: null,
    findings,
    ...(key === null ? {} : { record: { name: 'r', key } }),
    ...set,
  }) as unknown as CaptureEntry;
const job = (captures: CaptureEntry[], moves: string[] = []): Job =>
  ({
    number: 7,
    practice: false,
    fittings: [],
    advice: [],
    stations: { place: { data: { moves: moves.map((one) => ({ at: one })) } }, run: { data: {} } },
    captures,
  }) as unknown as Job;
const radius = 'effective-tip-radius';

it('Type A is of what was read since the last move, of the same record and of what counts', () => {
  const of = repeatsOf(
    job(
      [
        capture(1, [finding(radius, 9)]),
        capture(3, [finding(radius, 12)]),
        capture(4, [finding(radius, 13)], 'other'),
        capture(5, [finding(radius, 12.4)]),
        capture(6, [finding(radius, 40)], 'a', { setAside: { at: at(6), why: '' } }),
        capture(7, [finding(radius, 12.2)]),
      ],
      [at(2)],
    ),
    'a',
    null,
  );
  expect(of).toHaveLength(1);
  expect(of[0].points.map(({ value }) => value)).toEqual([9, 12, 12.4, 12.2]);
  expect(of[0].typeA).toMatchObject({ count: 3, mean: expect.closeTo(12.2, 9) });
  expect(of[0].chart).toBeNull();
});

it('the deck’s other jobs come first, this one’s own readings once; a rising radius is wear', () => {
  const reading = (number: number, day: number, value: number, record?: string) => ({
    job: number,
    at: at(day),
    when: 'left' as const,
    value,
    uncertainty: 0.6,
    verdict: 'info',
    cartridge: '',
    drift: null,
    ...(record === undefined ? {} : { record }),
  });
  const history = {
    figures: [
      {
        quantity: radius,
        unit: 'µm',
        limit: null,
        readings: [
          reading(1, 1, 12, 'a'),
          reading(2, 2, 12.5, 'a'),
          reading(3, 3, 20, 'b'),
          reading(4, 4, 13.1, 'a'),
          reading(7, 6, 14, 'a'),
        ],
      },
    ],
  } as unknown as DeckHistory;
  const [of] = repeatsOf(job([capture(6, [finding(radius, 14)]), capture(8, [finding(radius, 14.5)])]), 'a', history);
  expect(of.points.map(({ job: number, value }) => [number, value])).toEqual([
    [1, 12],
    [2, 12.5],
    [4, 13.1],
    [7, 14],
    [7, 14.5],
  ]);
  expect(repeatWords(of).map(({ code }) => code)).toContain('repeat-wear');
});

it('a figure that a recording holds twice is none of these, and one reading repeats nothing', () => {
  const twice = [finding('second-harmonic', 1), finding('second-harmonic', 2)];
  expect(repeatsOf(job([capture(1, twice), capture(2, twice)]), 'a', null)).toEqual([]);
  expect(repeatsOf(job([capture(1, [finding(radius, 1)])]), 'a', null)).toEqual([]);
  expect(lastChange(job([]))).toBeNull();
});

it('another cartridge’s readings are not on the chart, of this job nor of an earlier one', () => {
  const fitting = { id: 'f', at: at(3), kind: 'cartridge', name: 'new', was: 'old', station: 'match', hours: null };
  const fitted = {
    ...job([1, 2, 4, 5].map((day) => capture(day, [finding(radius, day)]))),
    fittings: [fitting],
  } as unknown as Job;
  expect(repeatsOf(fitted, 'a', null)[0].points.map(({ value }) => value)).toEqual([4, 5]);
  const reading = (number: number, day: number, value: number, cartridge: string) => ({
    ...{ job: number, at: at(day), when: 'left', value, uncertainty: 0.6, verdict: 'info', record: 'a' },
    ...{ cartridge, drift: null },
  });
  const readings = [reading(5, 1, 20, 'old'), reading(5, 2, 8, 'new'), reading(6, 3, 9, 'New')];
  const history = {
    figures: [{ quantity: radius, unit: 'µm', limit: null, readings }],
  } as unknown as DeckHistory;
  const [back] = repeatsOf(job([capture(7, [finding(radius, 10)])]), 'a', history);
  expect(back.points.map(({ value }) => value)).toEqual([8, 9, 10]);
  expect(repeatsOf(fitted, 'a', history)[0].points).toHaveLength(2);
});
