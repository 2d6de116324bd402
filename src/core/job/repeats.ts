/**
 * Readings of one record that repeat: those of this job, and those of the deck's other jobs before them. A Type A figure is of what was
 * read since anything was last moved or exchanged; the control chart is of all with the cartridge and stylus that are on the deck, for what
 * wanders from job to job.
 */

import type { JudgedFinding } from '../advise/document.ts';
import { type ControlChart, controlChart } from '../advise/repeat/controlChart.ts';
import { type TypeA, typeA } from '../measure/typeA.ts';
import type { CaptureEntry, Job } from './api.ts';
import { alike, type DeckHistory } from './deckHistory.ts';
import { epochsOf } from './epochs.ts';
import { recordingsOf } from './recordings.ts';

export interface RepeatedPoint {
  /** ISO time */
  readonly at: string;
  readonly value: number;
  /** number of the job */
  readonly job: number;
}

export interface RepeatedFigure {
  readonly quantity: string;
  readonly channel?: 'left' | 'right';
  readonly unit: string;
  /** oldest first */
  readonly points: readonly RepeatedPoint[];
  /** since the last move; null of fewer than two readings */
  readonly typeA: TypeA | null;
  /** k = 2, of one reading as the signal says it; null where none says */
  readonly repeatability: number | null;
  /** null of fewer than five readings */
  readonly chart: ControlChart | null;
}

/** ISO time of the last move that was made, or part exchanged; null where none was. */
export function lastChange(job: Pick<Job, 'stations' | 'advice' | 'fittings'>): string | null {
  const times = [
    ...Object.values(job.stations).flatMap(({ data }) => {
      const { moves } = data as { readonly moves?: unknown };
      return Array.isArray(moves)
        ? moves.flatMap((move: { at?: unknown }) => (typeof move?.at === 'string' ? [move.at] : []))
        : [];
    }),
    ...job.advice.flatMap(({ outcome }) => (outcome.did === 'done' && outcome.at !== null ? [outcome.at] : [])),
    ...job.fittings.map(({ at }) => at),
  ];
  // ISO times of one clock compare as text
  return times.reduce<string | null>((last, at) => (last === null || at > last ? at : last), null);
}

type Key = Pick<JudgedFinding, 'quantity' | 'channel' | 'unit'>;
const keyOf = ({ quantity, channel, unit }: Key): string => `${quantity} ${channel ?? ''} ${unit}`;

/** Figures that a recording holds once: those of single bands repeat only by chance of order. */
function singles(findings: readonly JudgedFinding[]): (JudgedFinding & { readonly value: number })[] {
  const times = new Map<string, number>();
  for (const finding of findings) times.set(keyOf(finding), (times.get(keyOf(finding)) ?? 0) + 1);
  return findings.filter(
    (finding): finding is JudgedFinding & { value: number } =>
      typeof finding.value === 'number' && times.get(keyOf(finding)) === 1,
  );
}

/**
 * @param record key of the record file; null: recordings that were measured without one
 * @param history of the deck, for its other jobs; null: not at hand
 * @returns figures with two readings or more, in the order of the newest recording
 */
export function repeatsOf(job: Job, record: string | null, history: DeckHistory | null): RepeatedFigure[] {
  const recordings = recordingsOf(job);
  const same = ({ record: of }: Pick<CaptureEntry, 'record'>): boolean => (of?.key ?? null) === record;
  const epochs = epochsOf(job.fittings);
  const fresh = epochs.findLastIndex(({ changed }) => changed === 'cartridge' || changed === 'stylus');
  const ofThisTip = new Set(epochs.slice(Math.max(0, fresh)).map(({ id }) => id));
  const ours = job.captures.filter(
    (capture, place) => recordings[place].counts && ofThisTip.has(recordings[place].epoch.id) && same(capture),
  );
  const newest = ours.at(-1);
  if (newest === undefined) return [];
  const since = lastChange(job) ?? '';
  return singles(newest.findings).flatMap((figure): RepeatedFigure[] => {
    const key = keyOf(figure);
    const own = ours.flatMap((capture) =>
      singles(capture.findings)
        .filter((finding) => keyOf(finding) === key)
        .map((finding) => ({ at: capture.heardAt, finding })),
    );
    const others = (history?.figures ?? [])
      .filter((one) => keyOf(one) === key)
      .flatMap(({ readings }) => (fresh < 0 ? readings : []))
      .filter(({ job: number, record: of }) => number !== job.number && (of ?? null) === record);
    // what came in is what left last, unless somebody named it
    const here = epochs[0].fitted.cartridge ?? others.at(-1)?.cartridge ?? '';
    const earlier = others.flatMap(({ job: number, at, value, cartridge }): RepeatedPoint[] =>
      typeof value === 'number' && alike(cartridge, here) ? [{ at, value, job: number }] : [],
    );
    const points = [
      ...earlier,
      ...own.map(({ at, finding }) => ({
        at,
        value: finding.value,
        job: job.number,
      })),
    ].sort((a, b) => a.at.localeCompare(b.at));
    if (points.length < 2) return [];
    return [
      {
        quantity: figure.quantity,
        ...(figure.channel === undefined ? {} : { channel: figure.channel }),
        unit: figure.unit,
        points,
        typeA: typeA(own.filter(({ at }) => at >= since).map(({ finding }) => finding.value)),
        repeatability: figure.repeatability ?? null,
        chart: controlChart(points.map(({ value }) => value)),
      },
    ];
  });
}
