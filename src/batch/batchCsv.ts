/** Batches as text and as CSV. */

import type { BatchStatus } from '../core/job/api.ts';
import { csvText } from '../core/words/csv.ts';
import type { Moved, ReportRow } from '../store/batch/askBatch.ts';

const count = (number: number, one: string): string => `${number} ${one}${number === 1 ? '' : 's'}`;

/** A screen: how far, how fast, who works, when it ends, what was set aside. */
export function statusText({ files, sides, workers, hourly, endsAt, poisoned }: BatchStatus): string {
  const known = files.done;
  const all = files.open + files.claimed + files.done + files.poisoned;
  const toMeasure = sides.open + sides.claimed + sides.done + sides.poisoned;
  const lines = [
    `${count(all, 'recording')}, ${known} with a fingerprint, ${count(toMeasure, 'different side')} among them so far`,
    `measured ${sides.done}, under way ${sides.claimed + files.claimed}, to do ${sides.open + files.open}, set aside ${sides.poisoned + files.poisoned}`,
    hourly === null ? 'pace: not known yet' : `pace: ${Math.round(hourly)} sides an hour over the last ten minutes`,
    ...(endsAt === null ? [] : [`done about ${endsAt.slice(0, 16).replace('T', ' ')} UTC at this pace`]),
    ...workers.map(({ worker, has }) => `${worker}: ${count(has, 'recording')} under way`),
    ...poisoned.map(({ path, why }) => `set aside: ${path}: ${why}`),
  ];
  return lines.map((line) => `${line}\n`).join('');
}

const HEAD = [
  'root',
  'path',
  'record',
  'chain',
  'fingerprint',
  'method',
  'state',
  'measured_at',
  'quantity',
  'channel',
  'value',
  'uncertainty',
  'unit',
  'verdict',
  'why',
];

export const reportHead = (): string => csvText([HEAD]);

/** A line for every figure; one without figures for a recording that has none. */
export const reportCsv = (rows: readonly ReportRow[]): string =>
  csvText(
    rows.flatMap(({ root, path, record, chain, fingerprint, method, state, measuredAt, why, figures }) => {
      const about = [root, path, record, chain, fingerprint ?? '', method, state, measuredAt ?? ''];
      if (figures.length === 0) return [[...about, '', '', '', '', '', '', why]];
      return figures.map(({ quantity, channel, value, uncertainty, unit, verdict }) => [
        ...about,
        quantity,
        channel ?? '',
        value,
        uncertainty,
        unit,
        verdict,
        why,
      ]);
    }),
  );

export const movedHead = (): string =>
  csvText([
    [
      'path',
      'fingerprint',
      'quantity',
      'channel',
      'unit',
      'method_before',
      'value_before',
      'uncertainty_before',
    ].concat(['method', 'value', 'uncertainty']),
  ]);

export const movedCsv = (moved: readonly Moved[]): string =>
  csvText(
    moved.map(({ path, fingerprint, quantity, channel, unit, before, now }) => [
      path,
      fingerprint,
      quantity,
      channel ?? '',
      unit,
      before.method,
      before.value,
      before.uncertainty,
      now.method,
      now.value,
      now.uncertainty,
    ]),
  );
