/** Chains as readable text for a terminal. */
import type { AlarmList, ChainCharts, ChainHistory, ChainList, ReferenceList } from '../core/job/chains/chain.ts';
import { chainPartNames } from '../core/job/chains/chain.ts';
import { figureName, recordedOn, sourceText } from '../core/job/chains/chainWords.ts';
import { shownFigure } from '../core/words/figure.ts';
import { isSigned } from '../core/words/quantities.ts';
import { say, statement } from '../core/words/statement.ts';
import { columns } from './jobText.ts';
import { oneLine } from './usageWords.ts';

const lines = (texts: readonly string[]): string => texts.map((text) => `${oneLine(text)}\n`).join('');

export function chainListText({ chains }: Pick<ChainList, 'chains'>): string {
  if (chains.length === 0) return `${say(statement('no-chains'))}\n`;
  const rows = chains.map(({ name, parts, newest }) => [
    name,
    ...chainPartNames.map((part) => parts[part] ?? ''),
    newest === null ? '' : recordedOn(newest),
  ]);
  return `${columns([['chain', ...chainPartNames, 'newest recording'], ...rows])}\n`;
}

export function alarmsText({ alarms, says }: AlarmList): string {
  return lines([...alarms.map(({ sentence }) => sentence), ...says]);
}

/** Every figure with its last reading, its limits and how it stands. */
export function chainChartsText({ chain, record, method, figures, says }: ChainCharts): string {
  const about = record === null ? '' : `, ${record.name}`;
  const head = `${chain.name}${about}${method === null ? '' : `, methods version ${method}`}`;
  const rows = figures.map((figure) => {
    const { quantity, unit, points, limits } = figure;
    const shown = (value: number, uncertainty: number | null = null) =>
      shownFigure(value, unit, uncertainty, isSigned(quantity));
    const last = points[points.length - 1];
    return [
      figureName(figure),
      shown(last.value, last.uncertainty),
      limits === null ? 'none' : `${shown(limits.low)} to ${shown(limits.high)}`,
      String(points.length),
      figure.says,
    ];
  });
  const table = rows.length === 0 ? '' : `${columns([['figure', 'last', 'limits', 'readings', ''], ...rows])}\n`;
  return `${lines([head, ...says])}${table}`;
}

/** @param first the newest page */
export function chainHistoryText({ chain, readings }: ChainHistory, first: boolean): string {
  const rows = readings.flatMap(({ at, method, record, reference, source, figures }) =>
    figures.map((figure) => [
      recordedOn(at),
      figureName(figure),
      shownFigure(figure.value, figure.unit, figure.uncertainty, isSigned(figure.quantity)),
      `version ${method}`,
      record?.name ?? 'no record file',
      reference === null ? sourceText(source) : `${sourceText(source)} (reference ${reference})`,
    ]),
  );
  if (rows.length === 0) return first ? `${chain.name}: ${say(statement('chain-no-readings'))}\n` : '';
  return `${columns(first ? [['recorded', 'figure', 'read', 'methods', 'record file', 'where'], ...rows] : rows)}\n`;
}

const stateWords = { holds: 'holds', soon: 'ends within 30 days', expired: 'has run out' } as const;

export function referencesText({ references }: ReferenceList): string {
  if (references.length === 0) return `${say(statement('no-references'))}\n`;
  const rows = references.map(({ name, record, certificate, expires, state, fingerprint }) => [
    name,
    record.name,
    certificate,
    expires,
    stateWords[state],
    fingerprint,
  ]);
  return `${columns([['name', 'record file', 'certificate', 'until', '', 'fingerprint'], ...rows])}\n`;
}
