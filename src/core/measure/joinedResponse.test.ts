import { describe, expect, it } from 'vitest';
import { joined, valueAt } from './joinedResponse.ts';
import type { ChannelResponse } from './responseSources.ts';

const response = (hz: readonly number[], db: readonly number[], spread: number, anchored = true): ChannelResponse => ({
  hz,
  db,
  spreadDb: hz.map(() => spread),
  levelDb: 0,
  anchored,
});

describe('several sweeps in one', () => {
  it('in order of frequency, each with its own spread, those without a 1 kHz left out', () => {
    const of = joined([
      response([100, 1000, 8000], [1, 0, -1], 0.1),
      response([50, 4000], [2, -3], 0.2),
      response([300], [9], 0.3, false),
    ]);
    expect(of).toEqual({ hz: [50, 100, 1000, 4000, 8000], db: [2, 1, 0, -3, -1], spreadDb: [0.2, 0.1, 0.1, 0.2, 0.1] });
    expect(joined([])).toEqual({ hz: [], db: [], spreadDb: [] });
  });

  it('a point is the mean of what lies within 1/24 octave to either side', () => {
    const step = (k: number): number => 1000 * 2 ** (k / 24);
    const of = joined([
      response([step(-1.01), step(-0.99), step(0), step(0.99), step(1.01)], [100, 3, 6, 12, 100], 0.1),
    ]);
    expect(of.db[2]).toBeCloseTo(7, 9);
    expect(of.db[0]).toBeCloseTo(51.5, 9);
  });
});

describe('a value between two points', () => {
  const of = { hz: [100, 400, 1600], db: [2, 4, 1], spreadDb: [0.1, 0.3, 0.2] };
  it('runs straight over the logarithm, as unsure as the worse of the two', () => {
    expect(valueAt(of, 200)).toEqual({ db: expect.closeTo(3, 12), spread: 0.3 });
    expect(valueAt(of, 800)).toEqual({ db: expect.closeTo(2.5, 12), spread: 0.3 });
    expect(valueAt(of, 100)).toEqual({ db: 2, spread: 0.3 });
    expect(valueAt(of, 1600)?.db).toBeCloseTo(1, 12);
  });
  it('stays at the ends within half a per cent beyond them, and is none further out', () => {
    expect(valueAt(of, 99.6)?.db).toBe(2);
    expect(valueAt(of, 99.4)).toBeNull();
    expect(valueAt(of, 1607)?.db).toBe(1);
    expect(valueAt(of, 1609)).toBeNull();
    expect(valueAt({ hz: [100], db: [1], spreadDb: [1] }, 100)).toBeNull();
  });
  it('two points at one frequency give the first', () => {
    expect(valueAt({ hz: [100, 100], db: [1, 5], spreadDb: [0.2, 0.1] }, 100)).toEqual({ db: 1, spread: 0.2 });
  });
});
