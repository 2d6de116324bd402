import { describe, expect, it } from 'vitest';
import { RECHECK_CLASSES } from '../advise/recheck.ts';
import type { OpenStatus, StationState } from './api.ts';
import { demoParts } from './demoParts.ts';
import { leafChanges } from './leafPaths.ts';
import { stationsAfterMove, stationsWithoutStep } from './marks.ts';
import { type StationName, stationNames } from './station.ts';
import { changeStation, freshStations, type Stations } from './stationState.ts';

const t0 = '2026-03-04T09:00:00.000Z';
const t1 = '2026-03-04T10:00:00.000Z';
const t2 = '2026-03-04T11:00:00.000Z';

/** A station as it is after its page has set status and data. */
function put(
  name: StationName,
  from: StationState,
  is: OpenStatus,
  data: StationState['data'],
  at: string,
): StationState {
  const change = { changes: leafChanges(from.data, data), status: { was: from.status, is } };
  const changed = changeStation(name, from, change, at);
  if (changed.outcome !== 'changed') throw new Error(changed.outcome);
  return changed.state;
}

const worked = (status: 'now' | 'done', data: Record<string, string> = { notes: 'x' }): Stations => {
  const stations = freshStations(t0);
  for (const name of stationNames) stations[name] = put(name, stations[name], status, data, t0);
  return stations;
};

describe('stations after a move', () => {
  it('marks what was begun, with the reason, the place and the words of the person', () => {
    const changed = stationsAfterMove(worked('done'), { move: 'slide', station: 'place', note: '1.2 mm forward' }, t1);
    expect(Object.keys(changed)).toEqual(['weigh', 'height', 'tilt', 'run', 'hand-over']);
    expect(changed.weigh).toMatchObject({ status: 'stale', revision: 2, data: { notes: 'x' }, updatedAt: t1 });
    expect(changed.weigh?.staleBecause).toEqual([
      'The cartridge was slid in its slots (1.2 mm forward) at Place: its weight is nearer to or further from the pivot, so the force has changed.',
    ]);
  });

  it('leaves alone what was never begun', () => {
    expect(stationsAfterMove(freshStations(t0), { move: 'slide', station: 'place', note: '' }, t1)).toEqual({});
    expect(stationsAfterMove(worked('now', {}), { move: 'slide', station: 'place', note: '' }, t1)).toEqual({});
  });

  it('never marks the station at which the move is made', () => {
    const changed = stationsAfterMove(worked('done'), { move: 'change-hardware', station: 'weigh', note: '' }, t1);
    expect(changed.weigh).toBeUndefined();
    expect(changed.match?.status).toBe('stale');
  });

  it('marks Run at which the speed is set, with Hand over: it only measures, and its figures were taken before', () => {
    const stations = worked('done');
    const changed = stationsAfterMove(stations, { move: 'set-speed', station: 'run', step: 'advice' }, t1);
    expect(Object.keys(changed)).toEqual(['run', 'hand-over']);
    expect(changed.run).toMatchObject({
      status: 'stale',
      staleBecause: ['The speed was adjusted at Run: the figures of the last run were taken before it.'],
    });
    const back = stationsWithoutStep({ ...stations, ...changed }, 'advice', t2);
    expect([back.run?.status, back['hand-over']?.status]).toEqual(['done', 'done']);
  });

  it('keeps the newest reasons, each once', () => {
    let stations = worked('done');
    for (let turn = 0; turn < 20; turn++) {
      const move = { move: 'slide', station: 'place', note: `turn ${turn % 12}` } as const;
      stations = { ...stations, ...stationsAfterMove(stations, move, t1) };
    }
    const reasons = stations.weigh.staleBecause ?? [];
    expect(reasons).toHaveLength(8);
    expect(new Set(reasons).size).toBe(8);
    expect(reasons[7]).toContain('turn 7');
  });
});

/** All stations done, with the parts of the practice bench picked and the force set. */
function knownBench(): Stations {
  const stations = worked('done');
  const wanted = ['arm', 'cartridge', 'hardware', 'deck'] as const;
  const parts = Object.fromEntries(
    wanted.map((kind) => [kind, { id: null, revision: 0, part: demoParts.find((part) => part.kind === kind) }]),
  );
  const set = {
    at: t0,
    by: 'dial',
    mn: 17,
    uncertaintyMn: null,
    targetMn: 17,
    dialMn: 17,
    calibrated: false,
    left: false,
  };
  return {
    ...stations,
    match: { ...stations.match, data: JSON.parse(JSON.stringify({ parts })) },
    weigh: { ...stations.weigh, data: { sets: [set] } },
  };
}

describe('the size of an effect, for this arm', () => {
  const moved = (move: Parameters<typeof stationsAfterMove>[1], from = knownBench()) => {
    const changed = stationsAfterMove(from, move, t1);
    return { changed, all: { ...from, ...changed } as Stations };
  };

  it('a slide of 1.2 mm changes the force by a quarter of a millinewton: weigh again', () => {
    const { changed } = moved({ move: 'slide', station: 'place', note: '1.2 mm forward', by: 1.2 });
    const [mark] = changed.weigh?.marks ?? [];
    expect(changed.weigh?.status).toBe('stale');
    // (m g − F) x / (L + x) with 7.1 g, 17 mN, and the part of the 1.2 mm that lies along the arm
    expect(mark.effect).toMatchObject({ quantity: 'tracking-force', unit: 'mN', most: 0.2 });
    expect(mark.effect?.size).toBeCloseTo(0.24, 2);
    expect(mark.because).toContain('About 0.24 mN here; up to 0.2 mN needs no second look.');
    // the arm's pitch goes by two hundredths of a degree: noted
    expect(changed.height?.status).toBe('done');
    expect(changed.height?.staleBecause).toBeUndefined();
    expect(changed.height?.marks?.[0]).toMatchObject({ counts: false, effect: { quantity: 'vertical-angle' } });
    // loosened screws have no size
    expect(changed.tilt?.status).toBe('stale');
    expect(changed['hand-over']?.status).toBe('stale');
  });

  it('goes by the tolerances of this job', () => {
    const slide = { move: 'slide', station: 'place', by: 1.2 } as const;
    const loose = { ...RECHECK_CLASSES.shop, 'tracking-force': { most: 0.3, unit: 'mN', source: '' } };
    expect(stationsAfterMove(knownBench(), slide, t1, loose).weigh?.marks?.[0]).toMatchObject({
      counts: false,
      effect: { most: 0.3 },
    });
    const close = { ...RECHECK_CLASSES.shop, 'vertical-angle': { most: 0.01, unit: 'deg', source: '' } };
    expect(stationsAfterMove(knownBench(), slide, t1, close).height?.status).toBe('stale');
  });

  it('setting force and height in turn comes to an end: each is only noted at the other', () => {
    let all = knownBench();
    for (const [move, station, by] of [
      ['set-force', 'weigh', 0.15],
      ['set-arm-height', 'height', 0.3],
      ['set-force', 'weigh', -0.05],
      ['set-arm-height', 'height', -0.1],
    ] as const) {
      all = { ...all, ...stationsAfterMove(all, { move, station, by }, t1) } as Stations;
    }
    expect(stationNames.filter((name) => all[name].status === 'stale')).toEqual([]);
    expect(all['hand-over'].status).toBe('done');
  });

  it('the same value set again marks and notes nothing', () => {
    expect(moved({ move: 'set-force', station: 'weigh', by: 0 }).changed).toEqual({});
    expect(moved({ move: 'set-arm-height', station: 'height', by: 0 }).changed).toEqual({});
  });

  it('notes of one quantity add up, and together count', () => {
    const slide = { move: 'slide', station: 'place', by: 0.6 } as const;
    const once = moved({ ...slide, note: 'first' });
    expect(once.changed.weigh?.status).toBe('done');
    const twice = moved({ ...slide, note: 'second' }, once.all);
    expect(twice.changed.weigh?.status).toBe('stale');
    expect(twice.changed.weigh?.staleBecause?.[0]).toContain('with what was noted before');
    // to and fro is no change
    const back = moved({ ...slide, by: -0.6, note: 'back' }, once.all);
    expect(back.changed.weigh?.status).toBe('done');
  });

  it('closing a station forgets its notes, and so does setting it anew', () => {
    const { all } = moved({ move: 'slide', station: 'place', by: 0.5 });
    const data = { ...all.weigh.data, notes: 'weighed again' };
    const opened = put('weigh', all.weigh, 'now', data, t1);
    const closed = put('weigh', opened, 'done', data, t1);
    expect(closed.marks).toBeUndefined();
    const set = stationsAfterMove(all, { move: 'set-force', station: 'weigh', by: 0.01 }, t2);
    expect(set.weigh?.marks).toEqual([]);
    // a word in the notes of a closed station is no second look
    const written = put('weigh', all.weigh, 'done', data, t1);
    expect(written.marks).toHaveLength(1);
  });

  it('an arm of which nothing is known marks as the table says', () => {
    const { changed } = moved({ move: 'slide', station: 'place', by: 0.1 }, worked('done'));
    expect(changed.weigh?.status).toBe('stale');
    expect(changed.weigh?.marks?.[0]).not.toHaveProperty('effect');
    expect(changed.run?.status).toBe('done');
  });
});

describe('a step taken back', () => {
  const slide = { move: 'slide', station: 'place', note: '1.2 mm forward', by: 1.2, step: 'one' } as const;

  it('leaves every station as it was, with what others marked', () => {
    const from = knownBench();
    const all = { ...from, ...stationsAfterMove(from, slide, t1) } as Stations;
    const back = { ...all, ...stationsWithoutStep(all, 'one', t2) } as Stations;
    for (const name of stationNames) {
      expect(back[name].status, name).toBe(from[name].status);
      expect(back[name].staleBecause, name).toBeUndefined();
      expect(back[name].marks, name).toBeUndefined();
    }
    const other = {
      ...all,
      ...stationsAfterMove(all, { move: 'twist', station: 'place', step: 'two' }, t1),
    } as Stations;
    const kept = { ...other, ...stationsWithoutStep(other, 'one', t2) } as Stations;
    expect(kept.weigh.status).toBe('stale');
    expect(kept.weigh.staleBecause).toHaveLength(1);
  });

  it('a station closed since has nothing to take back', () => {
    const from = knownBench();
    const all = { ...from, ...stationsAfterMove(from, slide, t1) } as Stations;
    const { weigh } = all;
    all.weigh = put('weigh', weigh, 'done', weigh.data, t1);
    expect(stationsWithoutStep(all, 'one', t2).weigh).toBeUndefined();
    expect(stationsWithoutStep(all, 'none such', t2)).toEqual({});
  });
});
