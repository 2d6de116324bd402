import { expect, it } from 'vitest';
import { isAudience } from './audience.ts';
import { isStationName, nextOpen, type StationName, stationNames } from './station.ts';

it('goes on with the next that is open, from the first again after the last, and to Hand over when nothing else is', () => {
  const next = (after: StationName, ...open: StationName[]) => nextOpen(after, (name) => !open.includes(name));
  expect(next('intake', 'match', 'run')).toBe('match');
  expect(next('place', 'match', 'run', 'hand-over')).toBe('run');
  expect(next('run', 'weigh', 'hand-over')).toBe('weigh');
  expect(next('run', 'hand-over')).toBe('hand-over');
  expect(next('hand-over', 'fit', 'weigh')).toBe('fit');
  expect(next('run')).toBeNull();
});

it('a station is known by its name alone', () => {
  expect(stationNames.every(isStationName)).toBe(true);
  expect(['', 'Run', 'toString', 'handover'].some(isStationName)).toBe(false);
});

it('a report is for one of two', () => {
  expect(['customer', 'technician'].every(isAudience)).toBe(true);
  expect(['', 'shop', 'toString'].some(isAudience)).toBe(false);
});
