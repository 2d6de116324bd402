/** The figures of a job as it is handed over: each as received and as it is now. */
import type { JudgedFinding } from '../../../advise/document.ts';
import { quantityTitle } from '../../../words/quantities.ts';
import type { CaptureEntry, Job } from '../../api.ts';
import { recordingsOf } from '../../recordings.ts';

export interface FigureRow {
  readonly quantity: string;
  readonly channel: 'left' | 'right' | undefined;
  readonly unit: string;
  /** null: not measured */
  readonly before: JudgedFinding | null;
  readonly after: JudgedFinding | null;
  readonly change: number | null;
  readonly changeUncertainty: number | null;
}

const only = (finding: JudgedFinding, side: 'before' | 'after'): FigureRow => ({
  quantity: finding.quantity,
  channel: finding.channel,
  unit: finding.unit,
  before: side === 'before' ? finding : null,
  after: side === 'after' ? finding : null,
  change: null,
  changeUncertainty: null,
});

/** In the order of the newest recording; where nothing was measured after, those of the newest recording as received. */
export function figureRows(job: Job): readonly FigureRow[] {
  const rows: FigureRow[] = [
    ...job.beforeAfter.map(({ channel, ...pair }) => ({ ...pair, channel })),
    ...job.notBefore.map(({ after }) => only(after, 'after')),
  ];
  if (rows.length > 0) return rows;
  return receivedAlone(job)?.findings.map((finding) => only(finding, 'before')) ?? [];
}

/** The newest recording as received, where nothing was measured after it. */
export function receivedAlone(job: Job): CaptureEntry | undefined {
  if (job.beforeAfter.length + job.notBefore.length > 0) return undefined;
  const recordings = recordingsOf(job);
  return job.captures.findLast((_, at) => recordings[at].counts && recordings[at].kind === 'as-received');
}

/** Its title with channel. */
export const figureName = ({ quantity, channel }: Pick<FigureRow, 'quantity' | 'channel'>): string =>
  channel === undefined ? quantityTitle(quantity) : `${quantityTitle(quantity)}, ${channel}`;

/** The newest there is. */
export const newest = ({ before, after }: FigureRow): JudgedFinding => (after ?? before) as JudgedFinding;

/** What a customer is told of, most telling first; a list of alternatives gives the first that was measured. */
const headlines: readonly (readonly string[])[] = [
  ['separation-left-to-right'],
  ['separation-right-to-left'],
  ['channel-balance'],
  ['polarity'],
  ['azimuth-error'],
  ['speed-error'],
  ['wow-flutter-weighted-deck', 'wow-flutter-weighted'],
  ['arm-resonance-lateral'],
  ['arm-resonance-vertical'],
  ['rumble-weighted', 'rumble-unweighted'],
  ['tracking-error', 'overhang-heard'],
  ['hum'],
  ['channel-order'],
  ['frequency-response-deviation'],
];

/** Figures on a customer's report. */
const MOST_FIGURES = 10;
const worst = ['bad', 'adjust', 'undecided', 'good', 'info'] as const;

/** The response from 1 kHz and over spans is one thing to a customer. */
const RESPONSE = 'frequency-response-deviation';
export const isOfResponse = (quantity: string): boolean => quantity.startsWith(RESPONSE);
const alike = (quantity: string): string => (isOfResponse(quantity) ? RESPONSE : quantity);

/**
 * At most ten, one of each name: the worst one where several bands or spans show it. What lies outside its limit comes before
 * all others.
 */
export function headlineRows(rows: readonly FigureRow[]): readonly FigureRow[] {
  const rank = (row: FigureRow): number => worst.indexOf(newest(row).verdict);
  const byName = new Map<string, FigureRow>();
  for (const row of rows) {
    const name = `${alike(row.quantity)} ${row.channel ?? ''}`;
    const held = byName.get(name);
    if (held === undefined || rank(row) < rank(held)) byName.set(name, row);
  }
  const single = [...byName.values()];
  const place = ({ quantity }: FigureRow): number => headlines.findIndex((names) => names.includes(alike(quantity)));
  const chosen = headlines.flatMap((names) => {
    const name = names.find((one) => single.some(({ quantity }) => alike(quantity) === one));
    return single.filter(({ quantity }) => alike(quantity) === name);
  });
  const failing = single.filter((row) => rank(row) <= 1 && !chosen.includes(row));
  return [...failing, ...chosen]
    .sort((a, b) => Number(rank(b) <= 1) - Number(rank(a) <= 1))
    .slice(0, MOST_FIGURES)
    .sort((a, b) => (place(a) < 0 ? headlines.length : place(a)) - (place(b) < 0 ? headlines.length : place(b)));
}

/** Names a customer would expect and nothing measured. */
export const missingHeadlines = (rows: readonly FigureRow[]): readonly string[] =>
  headlines
    .slice(0, MOST_FIGURES)
    .filter((names) => !rows.some(({ quantity }) => names.includes(quantity)))
    .map(([name]) => name);
