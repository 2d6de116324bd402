import { describe, expect, it } from 'vitest';
import { antiSkatingStart, skatingOverSide } from '../advise/skatingSide.ts';
import { sayAll } from '../words/statement.ts';
import { stationsAfterMove } from './marks.ts';
import { movesAtStation } from './stale.ts';
import { type KeptMark, keptReasons, markSays, reasonKeys, sizedEffect, toldReasons } from './staleReasons.ts';
import { stationNames } from './station.ts';
import { changeStation, freshStations, type Stations } from './stationState.ts';
import { checkStation, readableOf } from './stations/index.ts';
import { keptSetting, movedHereSays, reasonAtWeigh, skatingSays } from './stations/weigh/kept.ts';

const at = '2026-03-04T09:30:00.000Z';

const done = (): Stations => {
  const stations = freshStations(at);
  for (const name of stationNames) {
    const change = { changes: [{ path: ['notes'], is: 'x' }], status: { was: 'untouched', is: 'done' } } as const;
    const changed = changeStation(name, stations[name], { ...change, changes: [...change.changes] }, at);
    if (changed.outcome !== 'changed') throw new Error(changed.outcome);
    stations[name] = changed.state;
  }
  return stations;
};

const slide = { move: 'slide', station: 'place', note: '1.2 mm forward' } as const;

describe('reasons as a store keeps them', () => {
  it('hold no sentence, and tell the same ones when they are read', () => {
    const changed = stationsAfterMove(done(), slide, at);
    for (const [name, state] of Object.entries(changed)) {
      const station = name as keyof Stations;
      const kept = keptReasons(station, state);
      expect(JSON.stringify(kept), name).not.toContain('The cartridge was slid');
      const { staleBecause, marks } = state;
      expect(toldReasons(station, JSON.parse(JSON.stringify(kept))), name).toEqual({ staleBecause, marks });
    }
  });

  it('of earlier versions stay as they were written', () => {
    const mark = { move: 'slide', station: 'place', at, was: 'done', counts: true, because: 'It was slid.' } as const;
    const read = toldReasons('weigh', ['Something was moved.', mark]);
    expect(read).toEqual({ staleBecause: ['Something was moved.', 'It was slid.'], marks: [mark] });
    expect(keptReasons('weigh', read)).toEqual(['Something was moved.', mark]);
    expect(reasonKeys({ status: 'stale', ...read })).toEqual(['earlier', at]);
    expect(reasonKeys({ status: 'done', ...read })).toEqual([]);
  });

  it('a recording after the closing is kept by its file', () => {
    const read = toldReasons('hand-over', [{ readSince: 'b.wav' }]);
    expect(read.staleBecause).toEqual(['A recording was read after the job was closed: b.wav.']);
    expect(keptReasons('hand-over', read)).toEqual([{ readSince: 'b.wav' }]);
  });
});

describe('what Weigh keeps', () => {
  it('every move made there that asks for another weighing is found again by its sentence of an earlier version', () => {
    const asking = movesAtStation.weigh.filter((move) => reasonAtWeigh(move) !== undefined);
    expect(asking).toEqual(['change-counterweight', 'level-deck']);
    for (const move of asking) {
      const read = readableOf('weigh', { movedHere: movedHereSays({ move }), readUnder: 'x', target: '1.8' });
      expect(read).toEqual({ movedHere: { move }, target: '1.8' });
    }
    // a sentence that nobody knows still asks for another weighing
    expect(readableOf('weigh', { movedHere: 'Something fell.' })).toEqual({ movedHere: {} });
    expect(movedHereSays({})).not.toBe('');
  });

  it('an anti-skating is kept as figures, and a setting that cannot be said is refused', () => {
    const question = {
      trackingForceMn: 18,
      effectiveLengthMm: 239,
      spindleToPivotMm: 222,
      offsetDeg: 22,
      friction: 0.3,
      grooveInnerMm: 60,
      grooveOuterMm: 146,
    };
    const answer = skatingOverSide(question);
    if (!answer.found) throw new Error('no side');
    for (const device of [
      { kind: 'thread', leverMm: 12 },
      { kind: 'notched-lever', weightG: 2, notchesMm: [8] },
      { kind: 'dial', dialFriction: 0.3 },
    ] as const) {
      const start = antiSkatingStart(answer.side, question, device);
      if (!start.found) throw new Error(device.kind);
      const skatingSet = { at, setting: keptSetting(start.says) };
      expect(checkStation('weigh', { skatingSet }).found).toBe(true);
      expect(skatingSays(skatingSet)).toBe(sayAll(start.says));
    }
    const setting = [{ code: 'skating-dial', values: { grams: 1 } }];
    expect(checkStation('weigh', { skatingSet: { at, setting } }).found).toBe(false);
  });
});

describe('a mark as it is told', () => {
  const mark = (more: Partial<KeptMark> = {}): KeptMark => ({
    ...{ move: 'slide', station: 'place', at, was: 'done', counts: true, ...more },
  });
  const head =
    'The cartridge was slid in its slots at Place: its weight is nearer to or further from the pivot, so the force has changed.';

  it('names the move, the person’s words and the reason; none where the move no longer touches the station', () => {
    expect(markSays(mark(), 'weigh')).toBe(head);
    expect(markSays(mark({ note: '1.2 mm forward' }), 'weigh')).toBe(
      head.replace('slots at', 'slots (1.2 mm forward) at'),
    );
    expect(markSays(mark({ note: '' }), 'weigh')).toBe(head);
    expect(markSays(mark(), 'fit')).toBeNull();
  });

  it('has its size to two digits in its unit, and the sum where more was noted before', () => {
    const size = (effect: NonNullable<KeptMark['effect']>) =>
      markSays(mark({ effect }), 'weigh')?.slice(head.length + 1);
    const force = { quantity: 'tracking-force', size: -0.2649, most: 0.2, unit: 'mN' };
    expect(size(force)).toBe('About 0.26 mN here; up to 0.2 mN needs no second look.');
    expect(size({ ...force, sum: -0.2649 })).toBe('About 0.26 mN here; up to 0.2 mN needs no second look.');
    expect(size({ ...force, size: 0.15, sum: 0.31 })).toBe(
      'About 0.15 mN here, 0.31 mN with what was noted before; up to 0.2 mN needs no second look.',
    );
    expect(size({ quantity: 'tilt', size: 0.5, most: 0.25, unit: 'deg' })).toBe(
      'About 0.5° here; up to 0.25° needs no second look.',
    );
    expect(size({ quantity: 'threads', size: 1, most: 0.5, unit: '' })).toBe(
      'About 1 of a thread here; up to 0.5 of a thread needs no second look.',
    );
  });

  it('keeps a sum only where it differs from the size', () => {
    const tolerance = { most: 0.2, unit: 'mN', source: '' };
    const force = { quantity: 'tracking-force', size: 0.1 } as const;
    expect(sizedEffect(force, 0.1, tolerance)).toEqual({ ...force, most: 0.2, unit: 'mN' });
    expect(sizedEffect(force, 0.1 + 1e-12, tolerance)).not.toHaveProperty('sum');
    expect(sizedEffect(force, 0.05, tolerance)).toEqual({ ...force, most: 0.2, unit: 'mN', sum: 0.05 });
  });
});

describe('reasons there and back', () => {
  const codes = { move: 'slide', station: 'place', at, was: 'done', counts: true } as const;
  const noted = { ...codes, counts: false, move: 'twist' } as const;
  const says = (one: KeptMark) => markSays(one, 'weigh') as string;

  it('only what counts, what was read since and earlier sentences ask for another look', () => {
    const kept = ['An earlier sentence.', codes, noted, { readSince: 'side.wav' }] as const;
    const told = toldReasons('weigh', kept);
    expect(told).toEqual({
      staleBecause: ['An earlier sentence.', says(codes), 'A recording was read after the job was closed: side.wav.'],
      marks: [
        { ...codes, because: says(codes) },
        { ...noted, because: says(noted) },
      ],
      readSince: ['side.wav'],
    });
    expect(keptReasons('weigh', told)).toEqual(kept);
    expect(toldReasons('weigh', [])).toEqual({});
    expect(keptReasons('weigh', {})).toEqual([]);
  });

  it('a sentence that the codes would not give now is kept beside them', () => {
    const mark = { ...codes, because: 'As it was said then.' };
    expect(toldReasons('weigh', [mark])).toEqual({ staleBecause: ['As it was said then.'], marks: [mark] });
    expect(keptReasons('weigh', { marks: [mark] })).toEqual([mark]);
    // a move that touches this station no longer says nothing
    expect(toldReasons('fit', [codes])).toEqual({ staleBecause: [''], marks: [{ ...codes, because: '' }] });
  });

  it('a reason is known again by the time of its move, an earlier sentence as such', () => {
    const marks = [
      { ...codes, because: 'a' },
      { ...noted, because: 'b', at: 'later' },
    ];
    const keys = (staleBecause: string[]) => reasonKeys({ status: 'stale', staleBecause, marks });
    expect(keys(['a'])).toEqual([at]);
    expect(keys(['a', 'c'])).toEqual(['earlier', at]);
    expect(keys(['b'])).toEqual(['earlier', at]);
    expect(reasonKeys({ status: 'done', staleBecause: ['a'], marks })).toEqual([]);
    expect(reasonKeys({ status: 'stale' })).toEqual([]);
  });
});
