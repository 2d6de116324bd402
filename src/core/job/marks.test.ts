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

describe('a mark whole', () => {
  const slide = { move: 'slide', station: 'place', note: ' 1.2 mm forward ', by: 1.2, step: 'one' } as const;
  const reason = (
    name: StationName,
    state: Partial<StationState>,
    move: Parameters<typeof stationsAfterMove>[1] = slide,
  ) => stationsAfterMove({ ...freshStations(t0), [name]: { ...freshStations(t0)[name], ...state } }, move, t1)[name];

  it('names the move, where and when it was made, its step, how the station stood, the words of the person', () => {
    const because =
      'The cartridge was slid in its slots (1.2 mm forward) at Place: the screws were loose, and the cartridge may have tightened down at another angle.';
    const mark = {
      move: 'slide',
      station: 'place',
      at: t1,
      step: 'one',
      was: 'done',
      counts: true,
      note: '1.2 mm forward',
      because,
    };
    expect(reason('tilt', { status: 'done', data: { notes: 'x' }, revision: 3 })).toEqual({
      status: 'stale',
      staleBecause: [because],
      marks: [mark],
      data: { notes: 'x' },
      revision: 4,
      updatedAt: t1,
    });
    const bare = reason('tilt', { status: 'done' }, { move: 'slide', station: 'place' });
    expect(bare?.marks?.[0]).toStrictEqual({
      ...{ move: 'slide', station: 'place', at: t1, was: 'done', counts: true },
      because: because.replace(' (1.2 mm forward)', ''),
    });
  });

  it('keeps how the station stood before its first mark, and what was read since', () => {
    const now = reason('tilt', { status: 'now', data: { notes: 'x' } });
    expect(now?.marks?.[0].was).toBe('now');
    expect(reason('tilt', { status: 'stale' })?.marks?.[0].was).toBe('done');
    const again = reason('tilt', { ...now, readSince: ['a.wav'] }, { move: 'rewire', station: 'fit' });
    expect(again?.marks?.map(({ was, move }) => [move, was])).toEqual([
      ['slide', 'now'],
      ['rewire', 'now'],
    ]);
    expect(again).toMatchObject({
      readSince: ['a.wav'],
      staleBecause: [expect.stringContaining('slid'), expect.stringContaining('leads')],
    });
    expect(reason('tilt', { status: 'done' })).not.toHaveProperty('readSince');
  });

  it('the same one again stands once, as the newest', () => {
    const first = reason('tilt', { status: 'done' });
    const other = reason('tilt', first ?? {}, { move: 'rewire', station: 'fit' });
    const again = reason('tilt', other ?? {});
    expect(again?.marks?.map(({ move }) => move)).toEqual(['rewire', 'slide']);
    expect(again?.staleBecause?.map((one) => one.split(' ')[1])).toEqual(['cartridge', 'cartridge']);
    expect(again?.staleBecause).toEqual([other?.staleBecause?.[1], other?.staleBecause?.[0]]);
    expect(again?.marks?.length).toBe(2);
  });

  it('begun is what is done, stale, or has something in it', () => {
    const states: Partial<StationState>[] = [
      { status: 'untouched', data: { notes: 'x' } },
      { status: 'now' },
      { status: 'now', data: { notes: 'x' } },
      { status: 'done' },
      { status: 'stale' },
    ];
    expect(states.map((state) => reason('tilt', state)?.status)).toEqual([
      undefined,
      undefined,
      'stale',
      'stale',
      'stale',
    ]);
  });

  it('Hand over is marked with the others’ marks alone, though they were never begun', () => {
    const handOver = (move: Parameters<typeof stationsAfterMove>[1], from = knownBench()) =>
      stationsAfterMove(from, move, t1)['hand-over'];
    expect(handOver({ move: 'set-force', station: 'weigh', by: 0.01 })).toBeUndefined();
    expect(handOver({ move: 'set-force', station: 'weigh', by: 3 })?.status).toBe('stale');
    const only = { ...freshStations(t0), 'hand-over': knownBench()['hand-over'] };
    expect(handOver({ move: 'slide', station: 'place' }, only)?.staleBecause).toHaveLength(1);
  });

  it('notes of another quantity, and marks that count, are no part of the sum', () => {
    const note = (quantity: string, counts: boolean) =>
      ({
        move: 'twist',
        station: 'place',
        at: t0,
        was: 'done',
        counts,
        because: quantity + counts,
        effect: { quantity, size: 5, most: 1, unit: 'mN' },
      }) as const;
    const from = knownBench();
    const noted = (marks: StationState['marks']) =>
      stationsAfterMove(
        { ...from, weigh: { ...from.weigh, marks } },
        { move: 'slide', station: 'place', by: 0.5 },
        t1,
      ).weigh?.marks?.at(-1);
    expect(noted([note('overhang', false), note('tracking-force', true)])).toMatchObject({ counts: false });
    expect(noted([note('tracking-force', false)])).toMatchObject({
      counts: true,
      effect: { sum: expect.closeTo(5.1, 1) },
    });
    const { effect: _, ...bare } = note('tracking-force', false);
    expect(noted([bare])).toMatchObject({ counts: false });
  });

  it('a stale station has what is only noted beside its reasons, which stay', () => {
    const from = knownBench();
    const stale = { ...from, weigh: { ...from.weigh, status: 'stale', staleBecause: ['Earlier.'] } } as Stations;
    expect(stationsAfterMove(stale, { move: 'slide', station: 'place', by: 0.5 }, t1).weigh).toMatchObject({
      status: 'stale',
      staleBecause: ['Earlier.'],
      marks: [{ counts: false }],
    });
  });

  it('no more than eight marks and reasons are kept, the newest', () => {
    let stations = knownBench();
    for (let i = 0; i < 10; i++)
      stations = {
        ...stations,
        ...stationsAfterMove(stations, { move: 'slide', station: 'place', by: 1e-4, note: `n${i}` }, t1),
      } as Stations;
    expect(stations.weigh.marks?.map(({ note }) => note)).toEqual([2, 3, 4, 5, 6, 7, 8, 9].map((i) => `n${i}`));
  });
});

describe('a setting made anew at its own station', () => {
  const from = knownBench();
  const noted = { ...from, ...stationsAfterMove(from, { move: 'slide', station: 'place', by: 0.5 }, t1) } as Stations;
  const weigh = noted.weigh;
  it('deals with what was noted of it, and leaves what counts', () => {
    const counting = { ...weigh.marks![0], counts: true };
    const both = { ...noted, weigh: { ...weigh, marks: [counting, ...weigh.marks!] } } as Stations;
    expect(stationsAfterMove(both, { move: 'set-force', station: 'weigh', by: 0 }, t2)).toEqual({
      weigh: { ...weigh, marks: [counting], revision: weigh.revision + 1, updatedAt: t2 },
    });
    const only = { ...noted, weigh: { ...weigh, marks: [counting] } } as Stations;
    expect(stationsAfterMove(only, { move: 'set-force', station: 'weigh', by: 0 }, t2)).toEqual({});
  });
  it('is none where it is made elsewhere, or is no move of the station', () => {
    expect(stationsAfterMove(noted, { move: 'set-force', station: 'run', by: 0 }, t2)).toEqual({});
    expect(stationsAfterMove(noted, { move: 'slide', station: 'weigh', by: 0 }, t2)).toEqual({});
  });
});

describe('a step that was not made after all', () => {
  const mark = (step: string, because: string, more: object = {}) =>
    ({ move: 'slide', station: 'place', at: t1, step, was: 'now', counts: true, because, ...more }) as const;
  const weigh = (state: Partial<StationState>): Stations => ({
    ...freshStations(t0),
    weigh: { ...freshStations(t0).weigh, ...state },
  });
  const back = (state: Partial<StationState>) => stationsWithoutStep(weigh({ revision: 3, ...state }), 'one', t2);
  const changed = { data: {}, revision: 4, updatedAt: t2 };

  it('takes its marks with it, and the station is what it was where nothing else marked it', () => {
    expect(back({ status: 'stale', staleBecause: ['a'], marks: [mark('one', 'a')] })).toEqual({
      weigh: { ...changed, status: 'now' },
    });
    expect(back({ status: 'stale', staleBecause: ['a', 'b'], marks: [mark('one', 'a'), mark('two', 'b')] })).toEqual({
      weigh: { ...changed, status: 'stale', staleBecause: ['b'], marks: [mark('two', 'b')] },
    });
    expect(
      back({ status: 'stale', staleBecause: ['a', 'Earlier.'], marks: [mark('one', 'a')], readSince: ['x'] }),
    ).toEqual({
      weigh: { ...changed, status: 'stale', staleBecause: ['Earlier.'], readSince: ['x'] },
    });
  });

  it('that was only noted leaves the station as it stands', () => {
    const note = mark('one', 'a', { counts: false });
    expect(back({ status: 'done', marks: [note, mark('two', 'b', { counts: false })] })).toEqual({
      weigh: { ...changed, status: 'done', marks: [mark('two', 'b', { counts: false })] },
    });
    expect(back({ status: 'done', marks: [mark('two', 'b')] })).toEqual({});
    expect(back({ status: 'done' })).toEqual({});
    // without reasons there is nothing left to be stale for
    expect(back({ status: 'stale', marks: [note] })).toEqual({ weigh: { ...changed, status: 'now' } });
  });
});
