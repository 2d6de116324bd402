import { expect, test } from 'vitest';
import { readCsv } from '../../words/csv.ts';
import type { ChainList, ReferenceList } from './chain.ts';
import { alarmsCsv, chainHistoryHead, chainHistoryRows, chainListCsv, referencesCsv } from './chainCsv.ts';
import { alarm, reading, speed } from './readings.fixture.ts';

const rows = (text: string) => readCsv(text).lines.map(({ cells }) => cells);
const fingerprint = 'ab'.repeat(32);

test('a row an alarm', () => {
  const sentence = 'Speed error, of studio 2.';
  const other = {
    ...alarm,
    channel: 'left',
    uncertainty: null,
    record: null,
    expired: true,
    source: { job: 3, file: 'b.wav' },
    sentence,
  } as const;
  expect(rows(alarmsCsv({ alarms: [{ ...alarm, sentence }, other] }))).toEqual([
    'known_at recorded_at chain quantity channel kind value uncertainty unit low high outside_by readings_behind method record certificate_expired source sentence'.split(
      ' ',
    ),
    [
      ...[alarm.knownAt, alarm.at, 'studio 2', 'speed-error', '', 'beyond', '0.6', '0.02', '%', '-0.3', '0.3', '0.3'],
      ...['25', '7', 'test record', 'no', 'side-10.wav', sentence],
    ],
    [
      ...[alarm.knownAt, alarm.at, 'studio 2', 'speed-error', 'left', 'beyond', '0.6', '', '%', '-0.3', '0.3', '0.3'],
      ...['25', '7', '', 'yes', 'job 3: b.wav', sentence],
    ],
  ]);
  expect(rows(alarmsCsv({ alarms: [] }))).toHaveLength(1);
});

test('a row a figure of a reading, with what the reading is', () => {
  const one = reading(0, [speed(0.1), speed(3, { quantity: 'hum', channel: 'right', uncertainty: null })], {
    fingerprint,
    reference: 'studio reference',
    certificateUntil: '2027-01-01',
  });
  const bare = reading(1, [speed(0.2)], { record: null });
  expect(rows(chainHistoryHead() + chainHistoryRows({ readings: [one, bare] }))).toEqual([
    'recorded_at known_at source fingerprint reference record certificate_until method quantity channel value uncertainty unit'.split(
      ' ',
    ),
    [
      ...[one.at, one.knownAt, 'side-0.wav', fingerprint, 'studio reference', 'test record', '2027-01-01', '7'],
      ...['speed-error', '', '0.1', '0.02', '%'],
    ],
    [
      ...[one.at, one.knownAt, 'side-0.wav', fingerprint, 'studio reference', 'test record', '2027-01-01', '7'],
      ...['hum', 'right', '3', '', '%'],
    ],
    [bare.at, bare.knownAt, 'side-1.wav', '', '', '', '', '7', 'speed-error', '', '0.2', '0.02', '%'],
  ]);
  expect(chainHistoryRows({ readings: [] })).toBe('');
});

test('a row a chain, what is not said of it left empty', () => {
  const chains: ChainList['chains'] = [
    { id: 'c1', name: 'studio 2', parts: { deck: 'bench deck 3', bench: 'left bench' }, newest: alarm.at },
    { id: 'c2', name: 'studio 3', parts: {}, newest: null },
  ];
  expect(rows(chainListCsv({ chains }))).toEqual([
    ['chain', 'deck', 'cartridge', 'preamp', 'converter', 'bench', 'newest_recording'],
    ['studio 2', 'bench deck 3', '', '', '', 'left bench', alarm.at],
    ['studio 3', '', '', '', '', '', ''],
  ]);
});

test('a row a reference recording', () => {
  const references: ReferenceList['references'] = [
    {
      name: 'studio reference',
      fingerprint,
      record: { key: '0123456789abcdef', name: 'test record' },
      certificate: 'C-17',
      expires: '2027-01-01',
      addedAt: alarm.at,
      state: 'soon',
    },
  ];
  expect(rows(referencesCsv({ references }))).toEqual([
    ['name', 'fingerprint', 'record', 'certificate', 'expires', 'state'],
    ['studio reference', fingerprint, 'test record', 'C-17', '2027-01-01', 'soon'],
  ]);
});
