import { expect, test } from 'vitest';
import { alarmSentence, figureName, recordedOn, sourceText } from './chainWords.ts';
import { alarm } from './readings.fixture.ts';

const against = { before: 0.1, centre: 0, most: 0.4 };
const provisional = ' Only 24 readings are behind these limits.';

test('beyond its limits: by how much and on which side of the mean, with a plus where the figure has a sign', () => {
  const look = 'the belt, the trim of the speed, and the mains frequency where the motor follows it';
  expect(alarmSentence(alarm, against)).toBe(
    `Speed error of studio 2 read +0.600 ± 0.020 % on 2026-03-11 06:00 UTC: 0.300 % above its limits, −0.300 % to +0.300 %. Look at ${look}.`,
  );
  expect(alarmSentence({ ...alarm, value: -0.6, uncertainty: null }, against)).toBe(
    `Speed error of studio 2 read −0.600 % on 2026-03-11 06:00 UTC: 0.300 % below its limits, −0.300 % to +0.300 %. Look at ${look}.`,
  );
});

test('a figure without a sign is written without a plus, its channel behind its name', () => {
  const hum = { ...alarm, quantity: 'hum', channel: 'left', unit: 'dB', value: 6, by: 2, low: 1, high: 4 } as const;
  expect(alarmSentence({ ...hum, uncertainty: null }, { ...against, centre: 2.5 })).toMatch(
    /, left of studio 2 read 6\.00 dB on .*: 2\.00 dB above its limits, 1\.00 dB to 4\.00 dB\. Look at the earth joints/,
  );
});

test('a step: from where to where, its size whichever way it went, and the most that is explained', () => {
  const jump = { ...alarm, kind: 'jump', value: -0.25, uncertainty: null, by: 0 } as const;
  expect(alarmSentence(jump, { ...against, before: 0.25 })).toContain(
    'went from +0.250 % to −0.250 % on 2026-03-11 06:00 UTC: a step of 0.500 %, where 0.400 % is the most that its scatter explains.',
  );
});

test('a run: on which side of its mean', () => {
  const run = { ...alarm, kind: 'run', by: 0, value: 0.05, uncertainty: null } as const;
  const ran = (value: number) => alarmSentence({ ...run, value }, { ...against, centre: 0.04 });
  expect(ran(0.05)).toContain('the eighth reading in a row above its mean of +0.0400 %: it drifts');
  expect(ran(0.03)).toContain('the eighth reading in a row below its mean of +0.0400 %: it drifts');
});

test('with fewer than 25 readings behind them the limits are told as provisional', () => {
  expect(alarmSentence({ ...alarm, behind: 24 }, against)).toBe(alarmSentence(alarm, against) + provisional);
  expect(alarmSentence({ ...alarm, behind: 25 }, against)).not.toContain('Only');
});

test('a quantity that no chain is watched by still says where to look', () => {
  expect(alarmSentence({ ...alarm, quantity: 'rumble-unweighted' }, against)).toContain(
    'Look at the gain of preamp and converter',
  );
});

test('names, minutes and places in one line', () => {
  expect(figureName({ quantity: 'speed-error' })).toBe('Speed error');
  expect(figureName({ quantity: 'speed-error', channel: 'right' })).toBe('Speed error, right');
  expect(recordedOn('2026-03-11T06:07:59.000Z')).toBe('2026-03-11 06:07 UTC');
  expect(sourceText({ root: '/archive', path: 'a/b.wav' })).toBe('a/b.wav');
  expect(sourceText({ job: 12, file: 'b.wav' })).toBe('job 12: b.wav');
});
