/** The overhang from sound, and what a recording advises of it. */

import type { Job } from '../../../core/job/api.ts';
import type { HeardAtPlace } from '../../../core/job/stations/place/heardOverhang.ts';
import { say } from '../../../core/words/statement.ts';
import { api, ServerAway } from '../../api.ts';
import { away } from '../../connection.ts';
import { dayHere } from '../../localTime.ts';
import { Caution } from '../../parts/Caution.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { AdviceOutcome } from '../../parts/Outcome.tsx';
import { showEvidence } from '../../side/evidence.ts';

export function SoundCard({ job, heard }: { readonly job: Job; readonly heard: HeardAtPlace }) {
  return (
    <section class="card" aria-label="The overhang from sound">
      <h3>
        From sound: {heard.capture.file}, {dayHere(heard.capture.heardAt)}
      </h3>
      <FindingList
        findings={[heard.finding]}
        rowOf={() => ({ onEvidence: () => open(job.id, heard), withNote: false })}
      />
      {heard.says !== null && <p>{say(heard.says)}</p>}
      {job.advice
        .filter(({ captureId, advice: { action } }) => captureId === heard.capture.id && answered.has(action))
        .map((entry) => (
          <div key={entry.id}>
            <p class="aim">{entry.advice.why}</p>
            {entry.advice.caution !== undefined && <Caution>{entry.advice.caution}</Caution>}
            <AdviceOutcome jobId={job.id} entry={entry} />
          </div>
        ))}
    </section>
  );
}

/** What a recording advises of the overhang and the twist. */
const answered: ReadonlySet<string> = new Set(['slide', 'twist', 'leave-overhang']);

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
