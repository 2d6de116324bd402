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
