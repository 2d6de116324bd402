/** The overhang that a recording of this job tells, beside the one that was read at Place, with what their difference may be. */
import type { JudgedFinding } from '../../../advise/document.ts';
import type { PlaceDocument } from '../../../geometry/document.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import type { CaptureEntry, Job } from '../../api.ts';
import { ofWhatIsFitted } from '../../recordings.ts';

export interface HeardAtPlace {
  readonly finding: JudgedFinding;
  readonly capture: CaptureEntry;
  /** how it goes with the reading, or why it is not compared; null where nothing was read */
  readonly says: Statement | null;
}

/**
 * Of the last recording of what is fitted that tells it; null where none does.
 * @param movedAt ISO time of the last move made at Place; null: none
 */
export function heardOverhang(
  job: Job,
  place: Pick<PlaceDocument, 'asItStands'> | null,
  movedAt: string | null,
): HeardAtPlace | null {
  for (const capture of [...ofWhatIsFitted(job)].reverse()) {
    const finding = capture.findings.find(({ quantity }) => quantity === 'overhang-heard');
    if (finding === undefined || typeof finding.value !== 'number') continue;
    return { finding, capture, says: comparison(finding.value, finding.uncertainty ?? 0, capture, place, movedAt) };
  }
  return null;
}

function comparison(
  heardMm: number,
  heardSize: number,
  { heardAt }: CaptureEntry,
  place: Pick<PlaceDocument, 'asItStands'> | null,
  movedAt: string | null,
): Statement | null {
  // ISO times of one clock compare as text
  if (movedAt !== null && heardAt < movedAt) return statement('overhang-heard-before-move');
  const read = place?.asItStands?.overhangMm;
  if (read === undefined) return null;
  const apart = Math.abs(heardMm - read.value);
  const allowed = Math.hypot(heardSize, read.uncertainty);
  return statement(apart <= allowed ? 'overhang-heard-agrees' : 'overhang-heard-apart', {
    readMm: read.value,
    readSize: read.uncertainty,
    apart,
    allowed,
  });
}
