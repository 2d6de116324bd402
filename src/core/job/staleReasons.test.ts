import { describe, expect, it } from 'vitest';
import { antiSkatingStart, skatingOverSide } from '../advise/skatingSide.ts';
import { sayAll } from '../words/statement.ts';
import { stationsAfterMove } from './marks.ts';
import { movesAtStation } from './stale.ts';
import { keptReasons, reasonKeys, toldReasons } from './staleReasons.ts';
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
