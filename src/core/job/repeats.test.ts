import { expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import { controlChart } from '../advise/repeat/controlChart.ts';
import { typeA } from '../measure/typeA.ts';
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

it('the last change is the newest move, fitting or advice that was done, whatever the station', () => {
  const one = job([], [at(3), at(2)]);
  expect(lastChange(one)).toBe(at(3));
  const advice = (did: string, time: string | null) => [{ outcome: { did, note: '', at: time } }];
  expect(lastChange({ ...one, advice: advice('done', at(4)) } as Job)).toBe(at(4));
  expect(lastChange({ ...one, advice: advice('not-done', at(4)) } as Job)).toBe(at(3));
  expect(lastChange({ ...one, advice: advice('done', null) } as Job)).toBe(at(3));
  expect(lastChange({ ...one, fittings: [{ at: at(5) }] } as Job)).toBe(at(5));
  const odd = { place: { data: { moves: [null, {}, { at: 3 }, { at: at(1) }] } }, run: { data: { moves: 'odd' } } };
  expect(lastChange({ ...one, stations: odd } as unknown as Job)).toBe(at(1));
});

it('a repeated figure is told whole: its points, their scatter since the move, its chart', () => {
  const values = [10, 12, 11, 13, 12];
  const left = (value: number) => ({ ...finding('channel-balance', value), channel: 'left' as const });
  const captures = values.map((value, i) => capture(i + 1, [finding(radius, value), left(value)], null));
  const [first, second] = repeatsOf(job(captures, [at(3)]), null, null);
  const points = values.map((value, i) => ({ at: at(i + 1), value, job: 7 }));
  expect(first).toEqual({
    quantity: radius,
    unit: 'µm',
    points,
    // from the very moment of the move on
    typeA: typeA([11, 13, 12]),
    repeatability: 0.2,
    chart: controlChart(values),
  });
  expect(second).toEqual({ ...first, quantity: 'channel-balance', channel: 'left' });
  const bare = captures.map((one) => ({ ...one, findings: one.findings.map(({ repeatability: _, ...rest }) => rest) }));
  expect(repeatsOf(job(bare), null, null)[0]).toMatchObject({ repeatability: null, typeA: typeA(values) });
});

it('only readings of the same record repeat, of the same quantity, channel and unit, and only numbers', () => {
  const word = { ...finding(radius, 1), value: 'odd' as never };
  const other = { ...finding(radius, 5), unit: 'mm' };
  const right = { ...finding(radius, 5), channel: 'right' as const };
  expect(repeatsOf(job([capture(1, [word, other, right]), capture(2, [finding(radius, 1)])]), 'a', null)).toEqual([]);
  expect(repeatsOf(job([capture(1, [word]), capture(2, [word])]), 'a', null)).toEqual([]);
  const mixed = [capture(1, [finding(radius, 1)], null), capture(2, [finding(radius, 2)], 'a')];
  expect(repeatsOf(job(mixed), 'a', null)).toEqual([]);
  expect(repeatsOf(job(mixed), null, null)).toEqual([]);
  expect(repeatsOf(job([]), null, null)).toEqual([]);
});

it('a stylus begins anew, another arm does not', () => {
  const captures = [1, 2, 4, 5].map((day) => capture(day, [finding(radius, day)]));
  const fitted = (kind: string) =>
    repeatsOf({ ...job(captures), fittings: [{ id: 'f', at: at(3), kind, name: 'new', was: '' }] } as never, 'a', null);
  const values = (kind: string) => fitted(kind)[0].points.map(({ value }) => value);
  expect(values('stylus')).toEqual([4, 5]);
  expect(values('arm')).toEqual([1, 2, 4, 5]);
});

it('earlier jobs count as far as they read numbers with the same record and cartridge, in the order of time', () => {
  const reading = (number: number, day: number, value: number | string, cartridge = '', record?: string) => ({
    ...{ job: number, at: at(day), when: 'left', value, uncertainty: 0.6, verdict: 'info' },
    ...{ cartridge, drift: null, ...(record === undefined ? {} : { record }) },
  });
  const history = (readings: object[], more: object = {}) =>
    ({ figures: [{ quantity: radius, unit: 'µm', limit: null, readings, ...more }] }) as unknown as DeckHistory;
  const ours = job([capture(7, [finding(radius, 7)], null), capture(9, [finding(radius, 9)], null)]);
  const values = (of: DeckHistory, own = ours) => repeatsOf(own, null, of)[0].points.map(({ value }) => value);
  expect(
    values(history([reading(1, 8, 8), reading(2, 1, 1), reading(3, 2, 'odd'), reading(4, 3, 3, '', 'r')])),
  ).toEqual([1, 7, 8, 9]);
  expect(values(history([reading(1, 1, 1)], { channel: 'left' }))).toEqual([7, 9]);
  // what came in is what left last
  expect(values(history([reading(1, 1, 1, 'A'), reading(2, 2, 2, 'B')]))).toEqual([2, 7, 9]);
  // unless somebody named it: an arm was fitted, and the cartridge that stood there is known
  const fittings = [{ id: 'f', at: at(3), kind: 'arm', name: 'long', was: '' }];
  const named = { ...ours, fittings: [...fittings, { ...fittings[0], id: 'g', at: at(4), kind: 'preamp' }] } as never;
  expect(values(history([reading(1, 1, 1, 'A')]), named)).toEqual([1, 7, 9]);
});
