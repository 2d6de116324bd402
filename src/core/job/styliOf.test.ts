import { describe, expect, it } from 'vitest';
import { hoursADay, ledgerQuerySchema, type StylusFact, styliOf, stylusLedgerCsv } from './stylusHours.ts';

const deck = { id: 'd1', name: 'deck' };
const second = { id: 'd2', name: 'second' };
const at = (day: number): string => `2026-01-${String(day).padStart(2, '0')}T09:00:00.000Z`;
const fact = (day: number, more: Partial<StylusFact> = {}): StylusFact => ({
  deck,
  job: day,
  at: at(day),
  what: 'received',
  cartridge: 'A',
  stylus: '',
  hours: null,
  ...more,
});
const fitted = (day: number, more: Partial<StylusFact> = {}) => fact(day, { what: 'fitted', ...more });
/** Days of the notes of each stylus, those still on their deck marked. */
const days = (...facts: readonly StylusFact[]) =>
  styliOf(facts).map(
    ({ fitted, notes }) => `${notes.map(({ at }) => Number(at.slice(8, 10))).join(' ')}${fitted ? ' on' : ''}`,
  );

it('a stylus is told with its deck, its names, its last hours and every note', () => {
  expect(styliOf([])).toEqual([]);
  expect(
    styliOf([fact(1, { cartridge: '', hours: 5 }), fact(2, { deck: { ...deck, name: 'renamed' }, hours: null })]),
  ).toEqual([
    {
      deck: { id: 'd1', name: 'renamed' },
      cartridge: 'A',
      stylus: '',
      fitted: true,
      hours: 5,
      notes: [
        { job: 1, at: at(1), what: 'received', hours: 5 },
        { job: 2, at: at(2), what: 'received', hours: null },
      ],
    },
  ]);
});

describe('a deck that comes back', () => {
  it('carries the stylus that it left with: of the same cartridge, or of none named', () => {
    expect(days(fact(1), fact(2))).toEqual(['1 2 on']);
    expect(days(fact(1), fact(2, { cartridge: ' a ' }))).toEqual(['1 2 on']);
    expect(days(fact(1), fact(2, { cartridge: '' }))).toEqual(['1 2 on']);
    expect(days(fact(1, { cartridge: ' ' }), fact(2))).toEqual(['1 2 on']);
    expect(days(fact(1), fact(2, { cartridge: 'B' }))).toEqual(['2 on', '1']);
  });

  it('unless its hours went back; as many are the same', () => {
    expect(days(fact(1, { hours: 5 }), fact(2, { hours: 5 }))).toEqual(['1 2 on']);
    expect(days(fact(1, { hours: 5 }), fact(2, { hours: 4 }))).toEqual(['2 on', '1']);
    expect(days(fact(1, { hours: 5 }), fact(2), fact(3, { hours: 4 }))).toEqual(['3 on', '1 2']);
    expect(days(fact(1), fact(2, { hours: 4 }))).toEqual(['1 2 on']);
  });

  it('within one job it is the same whatever is said', () => {
    expect(days(fact(1, { hours: 5, job: 7 }), fact(2, { hours: 4, cartridge: 'B', job: 7 }))).toEqual(['1 2 on']);
    expect(days(fact(1, { hours: 5, job: 7 }), fact(2, { hours: 6, job: 8 }), fact(3, { hours: 4, job: 7 }))).toEqual([
      '3 on',
      '1 2',
    ]);
  });

  it('is no other deck', () => {
    expect(days(fact(1), fact(2, { deck: second }))).toEqual(['2 on', '1 on']);
  });
});

describe('a stylus that is fitted', () => {
  const off = fitted(2, { cartridge: 'B' });

  it('takes the place of the one that was there, and is another', () => {
    expect(days(fact(1, { hours: 5 }), fitted(2, { hours: 5 }))).toEqual(['2 on', '1']);
    expect(days(fitted(1, { job: 7 }), fitted(2, { job: 7 }))).toEqual(['2 on', '1']);
  });

  it('is one that was taken off where its names are the same and its hours no fewer', () => {
    const again = (more: Partial<StylusFact>, first: Partial<StylusFact> = { hours: 5 }) =>
      days(fact(1, first), off, fitted(3, more));
    expect(again({ hours: 5 })).toEqual(['1 3 on', '2']);
    expect(again({ hours: 6, cartridge: ' a' })).toEqual(['1 3 on', '2']);
    const another = ['3 on', '2', '1'];
    expect(again({ hours: 4 })).toEqual(another);
    expect(again({ hours: null })).toEqual(another);
    expect(again({ hours: 5, stylus: 'tip 2' })).toEqual(another);
    expect(again({ hours: 5, cartridge: 'C' })).toEqual(another);
    expect(again({ hours: 5, cartridge: '' })).toEqual(another);
    expect(again({ hours: 5, cartridge: ' ' }, { hours: 5, cartridge: '' })).toEqual(another);
    // one that never ran, or of which nobody said, cannot be told from a new one
    expect(again({ hours: 0 }, { hours: 0 })).toEqual(another);
    expect(again({ hours: 5 }, { hours: null })).toEqual(another);
    expect(again({ hours: 0.5 }, { hours: 0.5 })).toEqual(['1 3 on', '2']);
  });

  it('is none that is still on its deck, and none that only comes with one', () => {
    expect(days(fact(1, { hours: 5 }), fitted(2, { deck: second, hours: 5 }))).toEqual(['2 on', '1 on']);
    expect(days(fact(1, { hours: 5 }), off, fact(3, { deck: second, hours: 5 }))).toEqual(['3 on', '2 on', '1']);
  });

  it('has its own name, and keeps it when the deck comes back', () => {
    const [tip] = styliOf([fact(1), fitted(2, { stylus: 'tip 2', hours: 0 }), fact(3, { hours: 9 })]);
    expect(tip).toMatchObject({ cartridge: 'A', stylus: 'tip 2', hours: 9, fitted: true });
  });
});

it('facts in any order are the same, the last noted first', () => {
  const facts = [fact(1), fact(5, { deck: second }), fitted(3, { cartridge: 'B' }), fact(4)];
  expect(days(...facts)).toEqual(['5 on', '4 on', '3', '1']);
  expect(styliOf(facts.toReversed())).toEqual(styliOf(facts));
});

it('hours a day are those between the first and the last note that has any, a day or more apart', () => {
  const pace = (...notes: readonly (readonly [number, number | null])[]) =>
    hoursADay({ notes: notes.map(([day, hours]) => ({ job: 1, at: at(day), what: 'received' as const, hours })) });
  expect(pace([1, 100], [11, 120])).toBe(2);
  expect(pace([1, null], [2, 100], [5, 500], [12, 120], [14, null])).toBe(2);
  expect(pace([1, 100], [2, 101])).toBe(1);
  for (const none of [
    pace(),
    pace([1, 100]),
    pace([1, null], [3, null]),
    pace([1, 100], [1, 120]),
    pace([1, 100], [9, 100]),
    pace([1, 100], [9, 90]),
  ])
    expect(none).toBeNull();
});

it('as CSV it is one row a note', () => {
  const styli = [...styliOf([fact(1, { hours: 5 }), fitted(2, { stylus: 'tip' })])];
  expect(stylusLedgerCsv({ styli })).toBe(
    [
      'cartridge,stylus,deck,on_the_deck,job,at,noted,hours',
      `A,tip,deck,yes,2,${at(2)},fitted,`,
      `A,,deck,no,1,${at(1)},received,5`,
      '',
    ].join('\r\n'),
  );
  expect(ledgerQuerySchema.parse({ before: '3' })).toEqual({ limit: 100, before: 3 });
});
