/** The overhang from sound beside the reading; nothing where no recording tells it. */

import type { PlaceDocument } from '../../../core/geometry/document.ts';
import type { Job } from '../../../core/job/api.ts';
import { type HeardAtPlace, heardOverhang } from '../../../core/job/stations/place/heardOverhang.ts';
import { say } from '../../../core/words/statement.ts';
import { api, ServerAway } from '../../api.ts';
import { away } from '../../connection.ts';
import { dayHere } from '../../localTime.ts';
import { FindingList } from '../../parts/FindingList.tsx';
import { showEvidence } from '../../side/evidence.ts';

export interface SoundCardProps {
  readonly job: Job;
  readonly place: PlaceDocument | null;
  /** ISO time of the last move made here */
  readonly movedAt: string | null;
}

export function SoundCard({ job, place, movedAt }: SoundCardProps) {
  const heard = heardOverhang(job, place, movedAt);
  if (heard === null) return null;
  return (
    <section class="card" aria-label="The overhang from sound">
      <h3>
        From sound: {heard.capture.file}, {dayHere(heard.capture.heardAt)}
      </h3>
      <FindingList findings={[heard.finding]} rowOf={() => ({ onEvidence: () => open(job.id, heard) })} />
      <p>{say(heard.says)}</p>
    </section>
  );
}

/** The recording's document holds the curves that the figure rests on. */
function open(jobId: string, { finding, capture }: HeardAtPlace): void {
  api.capture(jobId, capture.id).then(
    ({ document }) => showEvidence(finding, document),
    (error: unknown) => {
      if (error instanceof ServerAway) away.value = true;
      else throw error;
    },
  );
}
