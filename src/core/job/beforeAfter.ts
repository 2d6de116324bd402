/** Before and after: the first capture of a job that holds a figure, against the last. */
import type { JudgedFinding } from '../advise/document.ts';
import type { Band } from '../record/band.ts';
import type { BeforeAfter } from './api.ts';

export interface ComparedCapture {
  readonly id: string;
  readonly sha256: string | null;
  readonly bands: readonly Band[];
  readonly findings: readonly JudgedFinding[];
}

/** What tells two figures of the same quantity and channel in one capture apart: the band they were read from. */
function bandMark(capture: ComparedCapture, finding: JudgedFinding): string {
  const band = capture.bands[finding.bands[0]];
  if (band === undefined) return '';
  if (band.sheetBand !== null) return `sheet ${band.sheetBand}`;
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
    const stem = single.has(name) ? name : `${name} ${bandMark(capture, finding)}`;
    // the second of two alike in one capture is the second in the other
    const nth = (times.get(stem) ?? 0) + 1;
    times.set(stem, nth);
    map.set(`${stem} ${nth}`, finding);
  }
  return map;
}

const nameOf = (finding: JudgedFinding): string => `${finding.quantity} ${finding.channel ?? ''} ${finding.unit}`;

/** Names that stand at most once in every capture, and so need no band to be told apart. */
function singleNames(captures: readonly ComparedCapture[]): Set<string> {
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

/**
 * Pairs of findings, in the order of the last capture's own list, then whatever only earlier captures hold.
 *
 * The same file measured twice is not a before and an after. The uncertainty of a change is √(U₁² + U₂²), k = 2: what
 * both share (the record's own error) cancels in truth, so it errs on the safe side.
 *
 * @param captures in the order heard
 */
export function beforeAfter(captures: readonly ComparedCapture[]): BeforeAfter[] {
  const single = singleNames(captures);
  const maps = captures.map((capture) => ({ capture, map: keyed(capture, single) }));
  const keys = new Set([...maps].reverse().flatMap(({ map }) => [...map.keys()]));
  const pairs: BeforeAfter[] = [];
  for (const key of keys) {
    const holding = maps.filter(({ map }) => map.has(key));
    const first = holding[0];
    const last = holding[holding.length - 1];
    const sameFile = first.capture.sha256 !== null && first.capture.sha256 === last.capture.sha256;
    const before = first.map.get(key);
    const after = last.map.get(key);
    if (first === last || sameFile || before === undefined || after === undefined) continue;
    const numbers = typeof before.value === 'number' && typeof after.value === 'number';
    pairs.push({
      quantity: after.quantity,
      ...(after.channel === undefined ? {} : { channel: after.channel }),
      unit: after.unit,
      before,
      after,
      beforeCapture: first.capture.id,
      afterCapture: last.capture.id,
      change: numbers ? (after.value as number) - (before.value as number) : null,
      changeUncertainty:
        numbers && before.uncertainty !== null && after.uncertainty !== null
          ? Math.hypot(before.uncertainty, after.uncertainty)
          : null,
    });
  }
  return pairs;
}
