/**
 * What each recording of a job is: as received, a pass, after, or practice; and whether it counts. Worked out from where
 * and when it was made and what a person said of it, each time it is asked for.
 */
import type { SideDocument } from '../advise/document.ts';
import { AS_RECEIVED, type Epoch, epochAt, epochNow, epochsOf, type Fitting } from './epochs.ts';
import type { StationName } from './station.ts';

export const recordingKinds = ['as-received', 'pass', 'after', 'practice'] as const;
export type RecordingKind = (typeof recordingKinds)[number];

/** Why a recording can never stand for the deck. */
export const unfitReasons = ['one-channel', 'nothing-heard', 'no-bands', 'noise', 'no-figures'] as const;
export type UnfitReason = (typeof unfitReasons)[number];

/** What is kept of a recording apart from its figures. */
export interface RecordingFacts {
  readonly id: string;
  /** ISO time in UTC */
  readonly heardAt: string;
  readonly station: StationName;
  /** played by the practice deck */
  readonly practice: boolean;
  /** what a person said that it is; null: by where and when */
  readonly saidKind: RecordingKind | null;
  /** the epoch that a person said; null: by when */
  readonly saidEpoch: string | null;
  readonly setAside: { readonly at: string; readonly why: string } | null;
  readonly unfit: UnfitReason | null;
}

export interface JobWith<Facts extends RecordingFacts> {
  /** everything in it is invented: practice sides count */
  readonly practice: boolean;
  readonly fittings: readonly Fitting[];
  /** oldest first */
  readonly captures: readonly Facts[];
}
export type RecordedJob = JobWith<RecordingFacts>;

export interface Recording {
  readonly id: string;
  readonly kind: RecordingKind;
  readonly epoch: Epoch;
  /** of what is fitted now */
  readonly now: boolean;
  /** false: its figures stand nowhere but in its own listing */
  readonly counts: boolean;
  /** among those of its epoch that count, from 1, in the order heard; null where it does not count */
  readonly number: number | null;
}

const oneChannel = new Set(['mono', 'identical-channels']);
const nothing = new Set(['silent', 'too-short']);

/** Why a side document can never be "after"; null where it can. */
export function unfitOf({
  bands,
  findings,
  problems,
}: Pick<SideDocument, 'bands' | 'findings' | 'problems'>): UnfitReason | null {
  if (problems.some(({ code }) => oneChannel.has(code))) return 'one-channel';
  if (problems.some(({ code }) => nothing.has(code))) return 'nothing-heard';
  if (bands.length === 0) return 'no-bands';
  if (bands.every(({ signal, sheetBand }) => sheetBand === null && (signal === 'noise' || signal === 'unknown')))
    return 'noise';
  return findings.length === 0 ? 'no-figures' : null;
}

function kindOf({ practice, saidKind, station }: RecordingFacts, epoch: Epoch, practiceJob: boolean): RecordingKind {
  if (saidKind !== null) return saidKind;
  if (practice && !practiceJob) return 'practice';
  return station === 'intake' && epoch.id === AS_RECEIVED ? 'as-received' : 'pass';
}

/**
 * Every recording of a job, in the order given. The newest of what is fitted now that counts stands as "after" while
 * nobody named another one so.
 */
export function recordingsOf({ practice, fittings, captures }: RecordedJob): readonly Recording[] {
  const epochs = epochsOf(fittings);
  const current = epochNow(epochs);
  const numbers = new Map<string, number>();
  const list = captures.map((facts): Recording => {
    const epoch = epochs.find(({ id }) => id === facts.saidEpoch) ?? epochAt(epochs, facts.heardAt);
    const kind = kindOf(facts, epoch, practice);
    const counts = facts.setAside === null && facts.unfit === null && kind !== 'practice';
    const number = counts ? (numbers.get(epoch.id) ?? 0) + 1 : null;
    if (number !== null) numbers.set(epoch.id, number);
    return { id: facts.id, kind, epoch, now: epoch === current, counts, number };
  });
  const ours = list.filter(({ now, counts }) => now && counts);
  if (ours.some(({ kind }) => kind === 'after')) return list;
  const said = new Set(captures.filter(({ saidKind }) => saidKind !== null).map(({ id }) => id));
  const newest = ours.filter(({ kind, id }) => kind === 'pass' && !said.has(id)).at(-1);
  return list.map((one) => (one === newest ? { ...one, kind: 'after' } : one));
}

/** Recordings that count of what is fitted now, oldest first. */
export function ofWhatIsFitted<Facts extends RecordingFacts>(job: JobWith<Facts>): readonly Facts[] {
  const recordings = recordingsOf(job);
  return job.captures.filter((_, place) => recordings[place].now && recordings[place].counts);
}

/** Those that a prediction made with recording `id` may be held against, itself among them; none where it does not count. */
export function comparableWith<Facts extends { readonly id: string }>(
  recordings: readonly Recording[],
  id: string,
  captures: readonly Facts[],
): readonly Facts[] {
  const own = recordings.find((one) => one.id === id);
  if (own === undefined || !own.counts) return [];
  const same = new Set(recordings.filter(({ epoch, counts }) => counts && epoch === own.epoch).map((one) => one.id));
  return captures.filter((one) => same.has(one.id));
}

/** Recordings that count and were heard with what was fitted at a moment, oldest first. @param at ISO time */
export function heardWith<Facts extends RecordingFacts>(job: JobWith<Facts>, at: string): readonly Facts[] {
  const { id } = epochAt(epochsOf(job.fittings), at);
  const recordings = recordingsOf(job);
  return job.captures.filter((_, place) => recordings[place].counts && recordings[place].epoch.id === id);
}
