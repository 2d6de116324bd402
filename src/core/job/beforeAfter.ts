/** Before and after: each figure as the deck came, against the newest of what is fitted now. */
import type { JudgedFinding } from '../advise/document.ts';
import type { Band } from '../record/band.ts';
import type { BeforeAfter } from './api.ts';
import { type JobWith, type Recording, type RecordingFacts, recordingsOf } from './recordings.ts';

export interface ComparedCapture {
  readonly id: string;
  readonly sha256: string | null;
  /** of each of its bands (`bandMark`) */
  readonly bandMarks: readonly string[];
  readonly findings: readonly JudgedFinding[];
}

/** What tells two figures of the same quantity and channel in one recording apart: the band they were read from. */
export function bandMark(band: Band): string {
  if (band.sheetBand !== null) return `listed ${band.sheetBand}`;
  // a third of an octave: far wider than any speed error, far narrower than two bands of a test record
  const pitch = band.frequencyHz === null ? '' : Math.round(3 * Math.log2(Math.max(band.frequencyHz, 1e-3)));
  return `${band.signal} ${band.motion} ${pitch}`;
}

/** Findings of a capture under a key that finds the same figure in another capture. */
function keyed(capture: ComparedCapture, single: ReadonlySet<string>): Map<string, JudgedFinding> {
  const map = new Map<string, JudgedFinding>();
  const times = new Map<string, number>();
  for (const finding of capture.findings) {
    const name = nameOf(finding);
    const stem = single.has(name) ? name : `${name} ${capture.bandMarks[finding.bands[0]] ?? ''}`;
    // the second of two alike in one capture is the second in the other
    const nth = (times.get(stem) ?? 0) + 1;
    times.set(stem, nth);
    map.set(`${stem} ${nth}`, finding);
  }
  return map;
}

const nameOf = (finding: JudgedFinding): string => `${finding.quantity} ${finding.channel ?? ''} ${finding.unit}`;

/** Names that stand at most once in every capture, and so need no band to be told apart. */
export function singleNames(captures: readonly ComparedCapture[]): Set<string> {
  const several = new Set<string>();
  const all = new Set<string>();
  for (const capture of captures) {
    const here = new Set<string>();
    for (const finding of capture.findings) {
      const name = nameOf(finding);
      if (here.has(name)) several.add(name);
      here.add(name);
      all.add(name);
    }
  }
  return new Set([...all].filter((name) => !several.has(name)));
}

/** Where each figure was found: first or last of the recordings that hold it. */
export interface Held<Capture extends ComparedCapture = ComparedCapture> {
  readonly capture: Capture;
  readonly finding: JudgedFinding;
}

/**
 * Each figure under a key that finds the same one in other recordings.
 *
 * @param captures the one that goes before the others first
 * @param single of all the recordings that are compared
 */
export function held<Capture extends ComparedCapture>(
  captures: readonly Capture[],
  single: ReadonlySet<string>,
): Map<string, Held<Capture>> {
  const map = new Map<string, Held<Capture>>();
  for (const capture of captures) {
    for (const [key, finding] of keyed(capture, single)) if (!map.has(key)) map.set(key, { capture, finding });
  }
  return map;
}

export interface Compared {
  readonly pairs: readonly BeforeAfter[];
  /** figures of after that no recording as received holds */
  readonly notBefore: readonly { readonly after: JudgedFinding; readonly afterCapture: string }[];
}

/**
 * Pairs of findings, in the order of the last capture's own list, then whatever only earlier captures hold.
 *
 * The same file measured twice is not a before and an after. The uncertainty of a change is √(U₁² + U₂²), k = 2: what
 * both share (the record's own error) cancels in truth, so it errs on the safe side.
 *
 * @param received recordings of the deck as it came, in the order heard: the first that holds a figure is its before
 * @param since recordings of what is fitted now, in the order heard: the last that holds a figure is its after
 */
export function beforeAfter(received: readonly ComparedCapture[], since: readonly ComparedCapture[]): Compared {
  const single = singleNames([...received, ...since]);
  const before = held(received, single);
  const pairs: BeforeAfter[] = [];
  const notBefore: Compared['notBefore'][number][] = [];
  for (const [key, last] of held([...since].reverse(), single)) {
    const first = before.get(key);
    if (first === undefined) notBefore.push({ after: last.finding, afterCapture: last.capture.id });
    else if (first.capture.sha256 === null || first.capture.sha256 !== last.capture.sha256)
      pairs.push(pairOf(first, last));
  }
  return { pairs, notBefore };
}

function pairOf(first: Held, last: Held): BeforeAfter {
  const [before, after] = [first.finding, last.finding];
  const change =
    typeof before.value === 'number' && typeof after.value === 'number' ? after.value - before.value : null;
  return {
    quantity: after.quantity,
    ...(after.channel === undefined ? {} : { channel: after.channel }),
    unit: after.unit,
    before,
    after,
    beforeCapture: first.capture.id,
    afterCapture: last.capture.id,
    change,
    changeUncertainty:
      change !== null && before.uncertainty !== null && after.uncertainty !== null
        ? Math.hypot(before.uncertainty, after.uncertainty)
        : null,
  };
}

/** The two sides of a comparison, each in the order heard; one that a person named "after" goes before a newer pass. */
export function sidesOf<Capture extends { readonly id: string }>(
  recordings: readonly Recording[],
  captures: readonly Capture[],
): { readonly received: readonly Capture[]; readonly since: readonly Capture[] } {
  const taken = (wanted: (one: Recording) => boolean): Capture[] => {
    const ids = new Set(recordings.filter((one) => one.counts && wanted(one)).map(({ id }) => id));
    return captures.filter(({ id }) => ids.has(id));
  };
  const since = (kind: Recording['kind']) => taken((one) => one.now && one.kind === kind);
  return { received: taken(({ kind }) => kind === 'as-received'), since: [...since('pass'), ...since('after')] };
}

/** Before and after of a job, worked out of its recordings each time it is asked for. */
export function comparedOf<Capture extends RecordingFacts & ComparedCapture>(
  job: JobWith<Capture>,
): { beforeAfter: BeforeAfter[]; notBefore: Compared['notBefore'][number][] } {
  const { received, since } = sidesOf(recordingsOf(job), job.captures);
  const { pairs, notBefore } = beforeAfter(received, since);
  return { beforeAfter: [...pairs], notBefore: [...notBefore] };
}
