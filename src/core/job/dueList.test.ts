import { describe, expect, it } from 'vitest';
import {
  dueCursor,
  dueListCsv,
  dueListHead,
  dueListRows,
  dueQuerySchema,
  dueState,
  expectedDay,
  soonUntil,
} from './dueList.ts';
import type { Stylus } from './stylusHours.ts';

const stylus = (...notes: readonly (readonly [string, number | null])[]): Stylus => ({
  deck: { id: 'd', name: 'deck' },
  cartridge: 'A',
  stylus: '',
  fitted: true,
  hours: notes.at(-1)?.[1] ?? null,
  notes: notes.map(([day, hours]) => ({ job: 1, at: `${day}T09:00:00.000Z`, what: 'received', hours })),
});
/** two hours a day */
const worn = stylus(['2026-01-01', 100], ['2026-01-11', 120]);
const byHours = (hours: number | null, of: Stylus | undefined = worn) => expectedDay({ date: null, hours }, of);

describe('the day on which a check is wanted', () => {
  it('is when the hours are reached at the pace of the notes, a part of a day begun', () => {
    expect(byHours(140)).toBe('2026-01-21');
    expect(byHours(141)).toBe('2026-01-21');
    expect(byHours(142)).toBe('2026-01-22');
    // reached when they were noted last
    expect(byHours(120)).toBe('2026-01-11');
    expect(byHours(20)).toBe('2026-01-11');
  });

  it('goes by the last note with hours', () => {
    expect(byHours(140, stylus(['2026-01-01', 100], ['2026-01-11', 120], ['2026-02-01', null]))).toBe('2026-01-21');
    expect(byHours(50, stylus(['2026-01-01', 100], ['2026-01-11', null]))).toBe('2026-01-01');
  });

  it('is not known where no hours are wanted or noted, or their pace is not known or foretells nothing', () => {
    expect(byHours(null)).toBeNull();
    expect(byHours(140, stylus(['2026-01-01', null]))).toBeNull();
    expect(byHours(140, stylus())).toBeNull();
    expect(expectedDay({ date: null, hours: 140 }, undefined)).toBeNull();
    expect(byHours(140, stylus(['2026-01-01', 100]))).toBeNull();
    // 20 years of 366 days, at two hours a day
    expect(byHours(120 + 2 * 20 * 366)).toBe('2046-01-26');
    expect(byHours(121 + 2 * 20 * 366)).toBeNull();
  });

  it('is the earlier of date and hours', () => {
    expect(expectedDay({ date: '2026-01-20', hours: 140 }, worn)).toBe('2026-01-20');
    expect(expectedDay({ date: '2026-01-22', hours: 140 }, worn)).toBe('2026-01-21');
    expect(expectedDay({ date: '2026-01-22', hours: null }, undefined)).toBe('2026-01-22');
  });
});

it('up to today it is due, within 30 days soon, then later; unknown it goes by hours', () => {
  expect(soonUntil('2026-01-02')).toBe('2026-02-01');
  const states = ['2026-01-01', '2026-01-02', '2026-01-03', '2026-02-01', '2026-02-02', null];
  expect(states.map((day) => dueState(day, '2026-01-02'))).toEqual(['due', 'due', 'soon', 'soon', 'later', 'by-hours']);
});

it('as CSV it is its head and one row a deck', () => {
  const head = 'state,expected,deck,owner,job,due_date,due_stylus_hours,stylus_hours_noted\r\n';
  const due = [
    {
      deck: { id: 'd', name: 'deck' },
      job: { id: 'j', number: 4 },
      owner: 'C-9',
      date: '2026-03-01',
      hours: 500,
      stylusHours: 320,
      expected: '2026-02-01',
      state: 'soon' as const,
    },
  ];
  const row = 'soon,2026-02-01,deck,C-9,4,2026-03-01,500,320\r\n';
  expect(dueListHead()).toBe(head);
  expect(dueListRows({ due })).toBe(row);
  expect(dueListCsv({ due })).toBe(head + row);
  expect(dueListCsv({ due: [] })).toBe(head);
});

it('is asked for page by page, with a cursor as the page before told it', () => {
  expect(dueQuerySchema.parse({})).toEqual({ limit: 100 });
  expect(dueQuerySchema.parse({ limit: '500', after: '2026-03-01_12' })).toEqual({
    limit: 500,
    after: '2026-03-01_12',
  });
  expect(dueQuerySchema.parse({ after: '_3' }).after).toBe('_3');
  for (const odd of [
    { limit: 0 },
    { limit: 501 },
    { limit: 1.5 },
    { after: '12' },
    { after: 'x2026-03-01_1' },
    { after: '_1x' },
  ])
    expect(dueQuerySchema.safeParse(odd).success, JSON.stringify(odd)).toBe(false);
  expect(dueCursor.exec('2026-03-01_12')?.slice(1)).toEqual(['2026-03-01', '12']);
});
