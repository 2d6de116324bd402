/** Chains for other systems: a row an alarm, a row a figure, a row a reference recording. */
import { csvText } from '../../words/csv.ts';
import type { AlarmList, ChainHistory, ChainList, ChainReading, ReferenceList } from './chain.ts';
import { chainPartNames } from './chain.ts';
import { sourceText } from './chainWords.ts';

export const alarmsCsv = ({ alarms }: Pick<AlarmList, 'alarms'>): string =>
  csvText([
    [
      'known_at',
      'recorded_at',
      'chain',
      'quantity',
      'channel',
      'kind',
      'value',
      'uncertainty',
      'unit',
      'low',
      'high',
    ].concat(['outside_by', 'readings_behind', 'method', 'record', 'certificate_expired', 'source', 'sentence']),
    ...alarms.map((alarm) => [
      alarm.knownAt,
      alarm.at,
      alarm.chain.name,
      alarm.quantity,
      alarm.channel ?? '',
      alarm.kind,
      alarm.value,
      alarm.uncertainty,
      alarm.unit,
      alarm.low,
      alarm.high,
      alarm.by,
      alarm.behind,
      alarm.method,
      alarm.record?.name ?? '',
      alarm.expired ? 'yes' : 'no',
      sourceText(alarm.source),
      alarm.sentence,
    ]),
  ]);

export const chainHistoryHead = (): string =>
  csvText([
    ['recorded_at', 'known_at', 'source', 'fingerprint', 'reference', 'record', 'certificate_until', 'method'].concat([
      'quantity',
      'channel',
      'value',
      'uncertainty',
      'unit',
    ]),
  ]);

const about = ({ at, knownAt, source, fingerprint, reference, record, certificateUntil, method }: ChainReading) => [
  at,
  knownAt,
  sourceText(source),
  fingerprint,
  reference,
  record?.name ?? '',
  certificateUntil,
  method,
];

export const chainHistoryRows = ({ readings }: Pick<ChainHistory, 'readings'>): string =>
  csvText(
    readings.flatMap((reading) =>
      reading.figures.map(({ quantity, channel, value, uncertainty, unit }) => [
        ...about(reading),
        quantity,
        channel ?? '',
        value,
        uncertainty,
        unit,
      ]),
    ),
  );

export const chainListCsv = ({ chains }: Pick<ChainList, 'chains'>): string =>
  csvText([
    ['chain', ...chainPartNames, 'newest_recording'],
    ...chains.map(({ name, parts, newest }) => [name, ...chainPartNames.map((part) => parts[part] ?? ''), newest]),
  ]);

export const referencesCsv = ({ references }: ReferenceList): string =>
  csvText([
    ['name', 'fingerprint', 'record', 'certificate', 'expires', 'state'],
    ...references.map(({ name, fingerprint, record, certificate, expires, state }) => [
      name,
      fingerprint,
      record.name,
      certificate,
      expires,
      state,
    ]),
  ]);
