import { describe, expect, it } from 'vitest';
import { dueListCsv, dueState, expectedDay } from './dueList.ts';
import { hoursADay, type StylusFact, styliOf, stylusLedgerCsv } from './stylusHours.ts';

const deck = { id: 'd1', name: 'studio deck' };
const fact = (at: string, more: Partial<StylusFact>): StylusFact => ({
  deck,
  job: 1,
  at: `${at}T09:00:00.000Z`,
  what: 'received',
  cartridge: 'A',
  stylus: '',
  hours: null,
  ...more,
});

describe('hours belong to the stylus', () => {
  it('one that comes back with more hours is the same; fewer hours or another cartridge make another', () => {
    const facts = [
      fact('2026-01-01', { hours: 100 }),
      fact('2026-03-02', { job: 2, hours: 160 }),
      fact('2026-06-01', { job: 3, hours: 20 }),
      fact('2026-09-01', { job: 4, hours: 500, cartridge: 'B' }),
    ];
    expect(
      styliOf(facts).map(({ cartridge, hours, fitted, notes }) => [cartridge, hours, fitted, notes.length]),
    ).toEqual([
      ['B', 500, true, 1],
      ['A', 20, false, 1],
      ['A', 160, false, 2],
    ]);
    expect(styliOf([...facts].reverse())).toEqual(styliOf(facts));
  });

  it('a new stylus in the old cartridge begins at its own hours, and the deck comes back with it', () => {
    const styli = styliOf([
      fact('2026-01-01', { hours: 800 }),
      fact('2026-01-02', { what: 'fitted', stylus: 'A2', hours: 0 }),
      fact('2026-07-01', { job: 2, hours: 90 }),
    ]);
    expect(styli.map(({ stylus, hours, fitted }) => [stylus, hours, fitted])).toEqual([
      ['A2', 90, true],
      ['', 800, false],
    ]);
  });

  it('one that was taken off and is fitted again, on another deck too, goes on; a new one of its name does not', () => {
    const other = { id: 'd2', name: 'second deck' };
    const taken = [
      fact('2026-01-01', { hours: 300 }),
      fact('2026-02-01', { what: 'fitted', cartridge: 'B', hours: 0 }),
    ];
    const back = fact('2026-03-01', { what: 'fitted', deck: other, job: 9, hours: 310 });
    expect(styliOf([...taken, back]).map(({ cartridge, deck, hours }) => [cartridge, deck.id, hours])).toEqual([
      ['A', 'd2', 310],
      ['B', 'd1', 0],
    ]);
    expect(styliOf([...taken, { ...back, hours: 0 }])).toHaveLength(3);
  });

  it('CSV keeps a name that looks like a formula a text', () => {
    const csv = stylusLedgerCsv({ styli: [...styliOf([fact('2026-01-01', { cartridge: '=1+1', hours: 3 })])] });
    expect(csv.split('\r\n')[1]).toBe("'=1+1,,studio deck,yes,1,2026-01-01T09:00:00.000Z,received,3");
  });
});

describe('due', () => {
  const [stylus] = styliOf([fact('2026-01-01', { hours: 100 }), fact('2026-03-02', { job: 2, hours: 160 })]);
  const row = (date: string | null, hours: number | null, today = '2026-03-10') => {
    const expected = expectedDay({ date, hours }, stylus);
    return [expected, dueState(expected, today)];
  };

  it('goes by the date, by the hours at their pace (60 h in 60 days), by the earlier of both', () => {
    expect(hoursADay(stylus)).toBeCloseTo(1, 9);
    expect(row('2026-03-10', null)).toEqual(['2026-03-10', 'due']);
    expect(row('2026-04-01', null)).toEqual(['2026-04-01', 'soon']);
    expect(row('2027-04-01', null)).toEqual(['2027-04-01', 'later']);
    expect(row(null, 170)).toEqual(['2026-03-12', 'soon']);
    expect(row(null, 150)).toEqual(['2026-03-02', 'due']);
    expect(row('2026-03-11', 170)).toEqual(['2026-03-11', 'soon']);
  });

  it('hours without a pace are said to be by hours, never a day', () => {
    const [once] = styliOf([fact('2026-01-01', { hours: 100 })]);
    expect(expectedDay({ date: null, hours: 300 }, once)).toBeNull();
    expect(expectedDay({ date: null, hours: 300 }, undefined)).toBeNull();
    expect(dueState(null, '2026-03-10')).toBe('by-hours');
    const told = { deck, job: { id: 'j', number: 2 }, owner: 'C-9', date: null, hours: 300, stylusHours: 100 };
    const csv = dueListCsv({ due: [{ ...told, expected: null, state: 'by-hours' }] });
    expect(csv.split('\r\n')[1]).toBe('by-hours,,studio deck,C-9,2,,300,100');
  });
});
