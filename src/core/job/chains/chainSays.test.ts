import { expect, test } from 'vitest';
import { chainAlarms, chainCharts } from './chainCharts.ts';
import { calm, dayAt, look, reading, speed, speeds } from './readings.fixture.ts';

const says = (...asked: Parameters<typeof look>) => chainCharts(look(...asked)).says;
const three = speeds(calm(3));
const until = (certificateUntil: string | null) => speeds(calm(3)).map((one) => ({ ...one, certificateUntil }));

test('without readings that is all there is to say', () => {
  const more = { since: dayAt(0), record: null };
  expect(says([], more)).toEqual([
    'Nothing that was measured belongs to this chain yet, or nothing since it was changed.',
  ]);
  expect(chainCharts(look([])).figures).toEqual([]);
});

test('nothing is said where nothing has to be known', () => {
  expect(says(three)).toEqual([]);
});

test('when the chain was changed, what was measured otherwise, and what is not drawn', () => {
  expect(says(three, { since: '2026-02-28T05:06:07.000Z' })).toEqual([
    'The charts begin on 2026-02-28 05:06 UTC, when the chain was last changed.',
  ]);
  const newest = { of: 20, otherMethods: 0, otherRecords: 0 };
  expect(says(three, { newest: { ...newest, otherMethods: 1 } })).toEqual([
    'Of the newest 20 recordings 1 was measured by an earlier version of the methods only and is not drawn beside those of version 7. What lies in batches is measured anew by batch again --older-than 7.',
  ]);
  expect(says(three, { newest: { ...newest, otherRecords: 4 } })).toEqual([
    'Of the newest 20 recordings 4 were measured by another record file, which has charts of its own.',
  ]);
  expect(says(speeds(calm(10)), { gap: 4 })).toEqual([
    'Between the first 4 readings and the newest 6 others are not drawn.',
  ]);
});

test('without a record file the figures rest on what is assumed, whatever certificate is named', () => {
  const assumed =
    'These recordings were measured without a record file: level, separation and noise rest on what is assumed of the record.';
  expect(says(three, { record: null })).toEqual([assumed]);
  expect(says(until('2026-02-01'), { record: null })).toEqual([assumed]);
});

test('a certificate holds through its last day; readings after it are counted', () => {
  const ran = (day: string | null) => says(until(day));
  expect(ran(null)).toEqual([]);
  expect(ran('2026-03-03')).toEqual([]);
  expect(ran('2026-03-02')).toEqual([
    'The certificate of test record ran out on 2026-03-02: 1 of these readings was recorded after it.',
  ]);
  expect(ran('2026-02-01')).toEqual([
    'The certificate of test record ran out on 2026-02-01: 3 of these readings were recorded after it.',
  ]);
});

test('an alarm says that the certificate had run out when it was recorded', () => {
  const expired = (certificateUntil: string | null) => {
    const readings = speeds([...calm(10), 0.9]).map((one) => ({ ...one, certificateUntil }));
    return chainCharts(look(readings)).alarms[0].expired;
  };
  expect([expired(null), expired(dayAt(10).slice(0, 10)), expired(dayAt(9).slice(0, 10))]).toEqual([
    false,
    false,
    true,
  ]);
});

test('everything at once, in the order in which it has to be known', () => {
  const all = says(until('2026-02-01'), {
    since: dayAt(0),
    gap: 1,
    newest: { of: 20, otherMethods: 2, otherRecords: 3 },
  });
  expect(all.map((text) => text.split(' ').slice(0, 3).join(' '))).toEqual([
    'The charts begin',
    'The certificate of',
    'Of the newest',
    'Of the newest',
    'Between the first',
  ]);
});

test('alarms alone: those that became known from a time on', () => {
  const values = calm(12);
  const readings = values.map((value, day) =>
    reading(day, [speed(day === 9 ? 0.9 : value), speed(day === 11 ? 0.9 : value, { quantity: 'hum' })]),
  );
  const from = (since: string) => chainAlarms(look(readings), since).map(({ quantity, at }) => [quantity, at]);
  const [early, late] = [
    ['speed-error', dayAt(9)],
    ['hum', dayAt(11)],
  ];
  expect(from('2026-01-01T00:00:00.000Z')).toEqual([early, late]);
  expect(from(readings[9].knownAt)).toEqual([early, late]);
  expect(from(dayAt(10))).toEqual([late]);
  expect(from('2026-04-01T00:00:00.000Z')).toEqual([]);
  expect(chainAlarms(look(readings), '')).toEqual(expect.arrayContaining([...chainCharts(look(readings)).alarms]));
});

test('alarms alone know of the gap as well', () => {
  const values = [...calm(30), -0.2, 0.25];
  expect(chainAlarms(look(speeds(values)), '')).toHaveLength(1);
  expect(chainAlarms(look(speeds(values), { gap: 31 }), '')).toEqual([]);
});
