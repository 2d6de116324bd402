import { describe, expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import { moveNames } from './moves.ts';
import { markTold, moveEffects, movesAtStation, whatMoveMakesStale } from './stale.ts';
import { stationNames } from './station.ts';

const stations = (what: Parameters<typeof whatMoveMakesStale>[0]) =>
  whatMoveMakesStale(what).map((mark) => mark.station);

describe('what a move makes stale', () => {
  it('sliding the cartridge makes force, height and tilt stale, with what was measured', () => {
    expect(stations('slide')).toEqual(['weigh', 'height', 'tilt', 'run', 'hand-over']);
    expect(say(markTold(whatMoveMakesStale('slide')[0]))).toBe(
      'The cartridge was slid in its slots: its weight is nearer to or further from the pivot, so the force has changed.',
    );
  });

  it('another cartridge makes everything after Intake stale', () => {
    expect(stations('change-cartridge')).toEqual(stationNames.filter((name) => name !== 'intake'));
  });

  it('a force that is set where nobody weighs it makes Weigh stale; at Weigh it does not', () => {
    expect(stations('set-force')).toEqual(['weigh', 'height', 'run', 'hand-over']);
    expect(say(markTold(whatMoveMakesStale('set-force')[0]))).toBe(
      'The tracking force was set anew: it is no longer the force that was weighed.',
    );
    expect(stations('weigh')).not.toContain('weigh');
  });

  it('an anti-skating that is set elsewhere than at Weigh makes what was set there stale', () => {
    expect(stations('set-skating')).toEqual(['weigh', 'run', 'hand-over']);
    expect(say(markTold(whatMoveMakesStale('set-skating')[0]))).toBe(
      'The anti-skating was changed: it is no longer the anti-skating that was set there.',
    );
  });

  it('a speed adjustment leaves the arm alone', () => {
    expect(stations('set-speed')).toEqual(['run', 'hand-over']);
  });

  it('a station stands for every move made at it, and never marks itself', () => {
    expect(stations('place')).toEqual(['weigh', 'height', 'tilt', 'run', 'hand-over']);
    expect(stations('tilt')).toEqual(['match', 'fit', 'weigh', 'place', 'height', 'run', 'hand-over']);
    for (const name of stationNames) expect(stations(name)).not.toContain(name);
  });

  it('nothing is moved at Intake and Hand over', () => {
    expect(stations('intake')).toEqual([]);
    expect(stations('hand-over')).toEqual([]);
  });

  it('every move is made at some station, reaches some other and is told in a whole sentence', () => {
    const made = new Set(Object.values(movesAtStation).flat());
    for (const move of moveNames) {
      expect(made.has(move), move).toBe(true);
      const marks = whatMoveMakesStale(move);
      expect(marks.length, move).toBeGreaterThan(0);
      for (const mark of marks) {
        expect(mark.moved.code).toBe(moveEffects[move].said);
        expect(say(markTold(mark))).toMatch(/^[A-Z].*: [a-z].*[^.]\.$/);
      }
      const order = marks.map((mark) => stationNames.indexOf(mark.station));
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
  });
});

describe('marks one by one', () => {
  const told = (what: Parameters<typeof whatMoveMakesStale>[0]) =>
    whatMoveMakesStale(what).map(({ station, moved, reason }) => [station, moved.code, reason.code]);

  it('a move has the reason of its table for each station, and Hand over the report', () => {
    for (const move of moveNames) {
      const { said, makesStale } = moveEffects[move];
      const wanted = stationNames.flatMap((name) => {
        const because = makesStale[name]?.because;
        return because === undefined ? [] : [[name, said, because]];
      });
      expect(told(move), move).toEqual([...wanted, ['hand-over', said, 'report-before-it']]);
    }
  });

  it('a station has the first of its moves that touches the other, and Hand over its first', () => {
    expect(told('place')).toEqual([
      ['weigh', 'cartridge-was-slid', 'weight-moved-along'],
      ['height', 'cartridge-was-slid', 'tip-moved-along'],
      ['tilt', 'cartridge-was-slid', 'screws-were-loose'],
      ['run', 'cartridge-was-slid', 'run-before-it'],
      ['hand-over', 'cartridge-was-slid', 'report-before-it'],
    ]);
    expect(told('tilt')).toEqual([
      ['match', 'shim-was-put', 'shim-mass'],
      ['fit', 'shim-was-put', 'shim-threads'],
      ['weigh', 'headshell-was-turned', 'force-after-every-move'],
      ['place', 'headshell-was-turned', 'tip-moved-sideways'],
      ['height', 'shim-was-put', 'shim-lower'],
      ['run', 'headshell-was-turned', 'run-before-it'],
      ['hand-over', 'headshell-was-turned', 'report-before-it'],
    ]);
    // what is set at Run marks Weigh alone of what comes before it
    expect(told('run')).toEqual([
      ['weigh', 'skating-was-changed', 'skating-not-as-set'],
      ['hand-over', 'speed-was-adjusted', 'report-before-it'],
    ]);
  });
});
