import { describe, expect, it } from 'vitest';
import type { StationChange, StationState } from './api.ts';
import type { LeafChange } from './leafPaths.ts';
import { stationsAfterMove } from './marks.ts';
import { sameJson } from './sameJson.ts';
import { type StationName, stationNames } from './station.ts';
import { changeStation, freshStations, type Stations } from './stationState.ts';

const t0 = '2026-03-04T09:00:00.000Z';
const t1 = '2026-03-04T10:00:00.000Z';

const done = { was: 'untouched', is: 'done' } as const;
const typed = (changes: LeafChange[], status?: StationChange['status']): StationChange => ({ changes, status });
const changedTo = (name: StationName, state: StationState, change: StationChange): StationState => {
  const changed = changeStation(name, state, change, t1);
  if (changed.outcome !== 'changed') throw new Error(changed.outcome);
  return changed.state;
};

const worked = (status: 'now' | 'done', notes: string | null = 'x'): Stations => {
  const stations = freshStations(t0);
  for (const name of stationNames) {
    const changes = notes === null ? [] : [{ path: ['notes'], is: notes }];
    stations[name] = changedTo(name, stations[name], typed(changes, { was: 'untouched', is: status }));
  }
  return stations;
};

describe('a station changed by its page', () => {
  const fresh = freshStations(t0).weigh;

  it('is begun by a change, counts its revision up and keeps what was typed', () => {
    expect(changeStation('weigh', fresh, typed([{ path: ['target'], is: '1.50' }]), t1)).toEqual({
      outcome: 'changed',
      state: { status: 'now', data: { target: '1.50' }, revision: 1, updatedAt: t1 },
    });
  });

  it('two windows: what each typed stays; the same field typed twice is told with both values', () => {
    const first = changedTo('weigh', fresh, typed([{ path: ['gauge', 'height'], is: '2' }]));
    const second = changedTo('weigh', first, typed([{ path: ['gauge', 'reading'], is: '1.82' }]));
    expect(second.data).toEqual({ gauge: { height: '2', reading: '1.82' } });
    expect(changeStation('weigh', second, typed([{ path: ['gauge', 'height'], is: '3' }]), t1)).toEqual({
      outcome: 'conflict',
      state: second,
      conflicts: [{ path: ['gauge', 'height'], yours: '3', theirs: '2' }],
    });
  });

  it('takes a request sent twice for what it is', () => {
    const change = typed([{ path: ['target'], is: '1.8' }], done);
    const state = changedTo('weigh', fresh, change);
    expect(changeStation('weigh', state, change, t1)).toEqual({ outcome: 'same', state });
  });

  it('keeps nothing that it has no field for, and says which', () => {
    const nonsense = typed([
      { path: ['forceUnit'], is: 42 },
      { path: ['gauge'], is: 'hello' },
    ]);
    expect(changeStation('weigh', fresh, nonsense, t1)).toMatchObject({
      outcome: 'refused',
      why: expect.stringContaining('weigh.forceUnit: '),
    });
    expect(changeStation('run', fresh, typed([{ path: ['invented'], is: 1 }]), t1).outcome).toBe('refused');
  });

  it('is not closed by a window that has not seen that it is to be checked again', () => {
    const stations = worked('done');
    const { weigh } = stationsAfterMove(stations, { move: 'slide', station: 'place', note: '' }, t1);
    if (weigh === undefined) throw new Error('Weigh did not change');
    expect(changeStation('weigh', weigh, { status: { was: 'now', is: 'done' } }, t1)).toEqual({
      outcome: 'conflict',
      state: weigh,
      conflicts: [],
    });
  });

  it('stays stale while it is worked at, and is clear when closed', () => {
    const stations = worked('done');
    const { weigh } = stationsAfterMove(stations, { move: 'slide', station: 'place', note: '' }, t1);
    if (weigh === undefined) throw new Error('Weigh did not change');
    const during = changedTo('weigh', weigh, typed([{ path: ['notes'], was: 'x', is: 'y' }]));
    expect(during.status).toBe('stale');
    expect(during.staleBecause).toEqual(weigh.staleBecause);
    const closed = changedTo('weigh', during, { status: { was: 'stale', is: 'done' } });
    expect(closed.status).toBe('done');
    expect(closed.staleBecause).toBeUndefined();
  });
});

describe('sameJson', () => {
  it('tells values apart and overlooks the order of keys', () => {
    expect(sameJson({ a: [1, { b: null }], c: 'x' }, { c: 'x', a: [1, { b: null }] })).toBe(true);
    for (const [a, b] of [
      [{ a: 1 }, { a: 2 }],
      [{ a: 1 }, { a: 1, b: 1 }],
      [{ a: 1 }, { b: 1 }],
      [
        [1, 2],
        [2, 1],
      ],
      [[], {}],
      [null, {}],
      [0, '0'],
    ]) {
      expect(sameJson(a, b), JSON.stringify([a, b])).toBe(false);
    }
  });
});

describe('what a change leaves of a station', () => {
  const marks = [{ move: 'slide', station: 'place', at: t0, was: 'done', counts: true, because: 'moved' }] as const;
  const state = (status: StationState['status'], more: Partial<StationState> = {}): StationState => ({
    status,
    staleBecause: ['moved'],
    readSince: ['a.wav'],
    marks: [...marks],
    data: { notes: 'x' },
    revision: 4,
    updatedAt: t0,
    ...more,
  });
  const kept = { data: { notes: 'x' }, revision: 5, updatedAt: t1 };
  const to = (from: StationState['status'], is: 'untouched' | 'now' | 'done', changes: LeafChange[] = []) =>
    changeStation('weigh', state(from), { changes, status: { was: from, is } as never }, t1);
  const typing: LeafChange[] = [{ path: ['target'], is: '1.8' }];

  it('closed, cleared or opened it forgets its marks; stale it keeps all of them until then', () => {
    const data = { notes: 'x', target: '1.8' };
    const told = { staleBecause: ['moved'], readSince: ['a.wav'], marks };
    expect(to('stale', 'done')).toEqual({ outcome: 'changed', state: { ...kept, status: 'done' } });
    expect(to('stale', 'untouched')).toEqual({ outcome: 'changed', state: { ...kept, status: 'untouched' } });
    expect(to('done', 'now')).toEqual({ outcome: 'changed', state: { ...kept, status: 'now' } });
    expect(to('stale', 'now', typing)).toEqual({
      outcome: 'changed',
      state: { ...kept, ...told, data, status: 'stale' },
    });
    expect(to('done', 'done', typing)).toEqual({ outcome: 'changed', state: { ...kept, marks, data, status: 'done' } });
    expect(to('now', 'now', typing)).toEqual({ outcome: 'changed', state: { ...kept, marks, data, status: 'now' } });
    const bare = state('stale', { staleBecause: undefined, readSince: undefined, marks: undefined });
    const changed = changeStation('weigh', bare, { changes: typing }, t1);
    expect(changed).toStrictEqual({ outcome: 'changed', state: { ...kept, data, status: 'stale' } });
  });

  it('nothing new is nothing to write', () => {
    for (const [from, is] of [
      ['done', 'done'],
      ['stale', 'now'],
      ['untouched', 'untouched'],
    ] as const)
      expect(to(from, is)).toEqual({ outcome: 'same', state: state(from) });
    expect(changeStation('weigh', state('now'), {}, t1)).toEqual({ outcome: 'same', state: state('now') });
    expect(to('now', 'now', [{ path: ['notes'], was: 'y', is: 'x' }]).outcome).toBe('same');
  });

  it('typing begins an untouched station, closing it at once does not open it', () => {
    const status = (is: 'untouched' | 'done') => {
      const changed = to('untouched', is, typing);
      return changed.outcome === 'changed' ? changed.state.status : changed.outcome;
    };
    expect([status('untouched'), status('done')]).toEqual(['now', 'done']);
  });

  it('a status that somebody changed since is a conflict, unless it is what was wanted', () => {
    const from = (was: string, is: string) =>
      changeStation('weigh', state('done'), { status: { was, is } as never }, t1);
    expect(from('now', 'untouched')).toEqual({ outcome: 'conflict', state: state('done'), conflicts: [] });
    expect(from('now', 'done').outcome).toBe('same');
    expect(from('done', 'now').outcome).toBe('changed');
  });
});

it('nine stations begin untouched, each on its own', () => {
  const fresh = freshStations(t0);
  expect(Object.keys(fresh)).toEqual([...stationNames]);
  for (const name of stationNames)
    expect(fresh[name]).toEqual({ status: 'untouched', data: {}, revision: 0, updatedAt: t0 });
  expect(fresh.run).not.toBe(fresh.tilt);
});
