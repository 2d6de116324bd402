import { describe, expect, it } from 'vitest';
import { stationsAfterMove } from './marks.ts';
import { sameJson } from './sameJson.ts';
import { stationNames } from './station.ts';
import { changeStation, freshStations, type Stations } from './stationState.ts';

const t0 = '2026-03-04T09:00:00.000Z';
const t1 = '2026-03-04T10:00:00.000Z';

const worked = (status: 'now' | 'done', data: Record<string, string> = { notes: 'x' }): Stations => {
  const stations = freshStations(t0);
  for (const name of stationNames) {
    stations[name] = changeStation(stations[name], { revision: 0, status, data }, t0).state;
  }
  return stations;
};

describe('a station changed by its page', () => {
  const fresh = freshStations(t0).tilt;

  it('counts its revision up and keeps what was typed', () => {
    expect(changeStation(fresh, { revision: 0, status: 'now', data: { forceTyped: '1.50' } }, t1)).toEqual({
      outcome: 'changed',
      state: { status: 'now', data: { forceTyped: '1.50' }, revision: 1, updatedAt: t1 },
    });
  });

  it('refuses a change made from an older revision and gives what stands there', () => {
    const { state } = changeStation(fresh, { revision: 0, status: 'now', data: { a: 1 } }, t1);
    expect(changeStation(state, { revision: 0, status: 'now', data: { a: 2 } }, t1)).toEqual({
      outcome: 'conflict',
      state,
    });
  });

  it('takes a request sent twice for what it is', () => {
    const { state } = changeStation(fresh, { revision: 0, status: 'now', data: { a: 1, b: [2] } }, t1);
    const again = changeStation(state, { revision: 0, status: 'now', data: { b: [2], a: 1 } }, t1);
    expect(again).toEqual({ outcome: 'same', state });
  });

  it('stays stale while it is worked at, and is clear when closed', () => {
    const stations = worked('done');
    const { weigh } = stationsAfterMove(stations, { move: 'slide', station: 'place', note: '' }, t1);
    if (weigh === undefined) throw new Error('Weigh did not change');
    const during = changeStation(weigh, { revision: weigh.revision, status: 'now', data: { notes: 'y' } }, t1).state;
    expect(during.status).toBe('stale');
    expect(during.staleBecause).toEqual(weigh.staleBecause);
    const closed = changeStation(during, { revision: during.revision, status: 'done', data: during.data }, t1).state;
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
