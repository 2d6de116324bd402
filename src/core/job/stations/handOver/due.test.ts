import { expect, test } from 'vitest';
import { type StationName, stationNames } from '../../station.ts';
import { closingLacks, handOverModel, openStations } from '../handOver.ts';
import type { JobTyped } from '../stationModel.ts';
import { dueOf, dueText } from './due.ts';

const lines = (typed: Parameters<typeof handOverModel.lines>[0]) => handOverModel.lines(typed, {} as JobTyped);

test('by hours, by day, by both or not at all', () => {
  expect(dueOf({ dueHours: '800', dueDate: '2027-03-01' })).toEqual({ hours: 800, date: '2027-03-01' });
  expect(dueOf({})).toEqual({ hours: null, date: null });
  expect(dueOf({ dueHours: 'soon', dueDate: '' })).toEqual({ hours: null, date: null });
  expect([
    dueText({ dueHours: '800', dueDate: '2027-03-01' }),
    dueText({ dueHours: '800 h' }),
    dueText({ dueDate: '2027-03-01' }),
    dueText({ dueHours: 'soon', dueDate: '2027-03-01' }),
    dueText({}),
  ]).toEqual([
    'At 800 stylus hours or on 2027-03-01, whichever comes first.',
    'At 800 stylus hours.',
    'On 2027-03-01.',
    'On 2027-03-01.',
    'Not set.',
  ]);
});

test('the report tells the next check, and hours that cannot be read as they were typed', () => {
  const check = (text: string) => ({ label: 'Next check', text });
  expect(lines({})).toEqual([]);
  expect(lines({ dueHours: '', dueDate: '' })).toEqual([]);
  expect(lines({ dueHours: '800' })).toEqual([check('At 800 stylus hours.')]);
  expect(lines({ dueDate: '2027-03-01' })).toEqual([check('On 2027-03-01.')]);
  expect(lines({ dueHours: 'soon' })).toEqual([check('“soon”, which cannot be used')]);
  expect(lines({ dueHours: 'soon', dueDate: '2027-03-01' })).toEqual([
    check('“soon”, which cannot be used'),
    check('On 2027-03-01.'),
  ]);
  expect(lines({ dueHours: '800', dueDate: '2027-03-01', closedOver: ' the owner is in a hurry ' })).toEqual([
    { label: 'Closed with stations open', text: 'the owner is in a hurry' },
    check('At 800 stylus hours or on 2027-03-01, whichever comes first.'),
  ]);
  expect(lines({ closedOver: '  ' })).toEqual([]);
});

test('a job is closed with stations open only for a reason', () => {
  const done = new Set<StationName>(
    stationNames.filter((name) => name !== 'tilt' && name !== 'run' && name !== 'hand-over'),
  );
  const isDone = (name: StationName) => done.has(name);
  expect(openStations(isDone)).toEqual(['tilt', 'run']);
  expect(openStations(() => true)).toEqual([]);
  expect(openStations(() => false)).toEqual(stationNames.slice(0, -1));
  expect(closingLacks(() => true, {})).toBeNull();
  expect(closingLacks(isDone, { closedOver: 'no record here' })).toBeNull();
  const lacks =
    'hand-over.closedOver: the reason why the job is closed with stations open was expected; not done: Tilt, Run';
  expect(closingLacks(isDone, {})).toBe(lacks);
  expect(closingLacks(isDone, { closedOver: ' ' })).toBe(lacks);
});

test('lines of the report that an earlier version kept go', () => {
  expect(handOverModel.fromOlder({ forReport: [], dueDate: '' })).toEqual({ dueDate: '' });
});
