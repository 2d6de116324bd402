/** What a recording of this job tells of the vertical angle; where none does, that is said, and nothing else is shown. */

import type { Job } from '../../../core/job/api.ts';
import type { Bench } from '../../../core/job/fields/benchFacts.ts';
import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import { type MeasuredAngle, measuredAdvice, measuredAngle } from '../../../core/job/stations/height/heightAnswers.ts';
import { heightFields } from '../../../core/job/stations/height/heightData.ts';
import type { HeightTyped } from '../../../core/job/stations/height.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { api, ServerAway } from '../../api.ts';
import { away } from '../../connection.ts';
import { dayHere } from '../../localTime.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { stationPath } from '../../route.ts';
import { showEvidence } from '../../side/evidence.ts';

export interface MeasuredCardProps {
  readonly job: Job;
  readonly data: HeightTyped;
  readonly bench: Bench;
  set(patch: HeightTyped): void;
}

export function MeasuredCard({ job, data, bench, set }: MeasuredCardProps) {
  const measured = measuredAngle(job);
  if (measured === null) {
    const heard = ofWhatIsFitted(job).length;
    return (
      <section class="card measured-card" aria-label="The angle as measured">
        <h3>The angle as measured</h3>
        <p class="invite">
          <b>Not measured.</b>{' '}
          {heard === 0 ? say(statement('not-recorded-yet')) : say(statement('no-angle-recorded', { count: heard }))}
        </p>
        <p class="soft">
          Everything above is a forecast from lengths and from what the maker states. The error itself is read from a
          band with a vertical tone, played at <a href={stationPath(job.id, 'run')}>Run</a>; once this job holds such a
          figure, how far to raise or lower the arm appears here.
        </p>
      </section>
    );
  }
  const { finding, capture } = measured;
  const advice = measuredAdvice(data, bench, measured);
  // ISO times of one clock compare as text
  const moved = data.sets?.findLast(({ left }) => !left);
  if (moved !== undefined && capture.heardAt < moved.at) {
    return (
      <section class="card measured-card" aria-label="The angle as measured">
        <h3>The angle as measured</h3>
        <div class="notice">
          <p>
            <b>{say(statement('read-before-set'))}</b> {say(statement('play-vertical-again'))}{' '}
            <a href={stationPath(job.id, 'run')}>Run</a>
          </p>
        </div>
        <FindingList
          findings={[finding]}
          rowOf={() => ({ onEvidence: () => openEvidenceOf(job.id, measured), where: 'before' })}
        />
      </section>
    );
  }
  const move = advice.found && advice.value.amount !== null ? advice.value : null;
  return (
    <section class="card measured-card" aria-label="The angle as measured" aria-live="polite">
      <h3>
        The angle as measured: {capture.file}, {dayHere(capture.heardAt)}
      </h3>
      {move !== null && move.amount !== null && (
        <>
          <Figure size="big" value={move.amount} unit="mm" uncertainty={move.uncertainty ?? null} />
          <p class="turn">{move.direction === 'raise-at-the-pivot' ? 'Raise' : 'Lower'} the arm at its pivot</p>
        </>
      )}
      {advice.found && move === null && <p class="turn">Leave the height</p>}
      <FindingList
        findings={[finding]}
        rowOf={() => ({ onEvidence: () => openEvidenceOf(job.id, measured), withNote: false })}
      />
      {advice.found ? (
        <>
          <p>{advice.value.why}</p>
          {move?.predicts.map((prediction) => (
            <p class="soft" key={prediction.quantity}>
              {say(statement('afterwards-error', { deg: prediction.value }))}
            </p>
          ))}
          {move?.caution !== undefined && <Caution>{move.caution}</Caution>}
        </>
      ) : (
        <p class={advice.missing ? 'soft' : 'wrong-line'}>
          {advice.missing ? say(statement('move-left-out', { why: advice.why })) : sentence(advice.why)}
        </p>
      )}
      <Fold title="How far the arm can move">
        <div class="fields">
          <TypedFields of={heightFields} names={['slackDown', 'slackUp']} typed={data} set={set} />
        </div>
      </Fold>
    </section>
  );
}

/** The recording's document holds the curves that the figure rests on. */
function openEvidenceOf(jobId: string, { finding, capture }: MeasuredAngle): void {
  api.capture(jobId, capture.id).then(
    ({ document }) => showEvidence(finding, document),
    (error: unknown) => {
      if (error instanceof ServerAway) away.value = true;
      else throw error;
    },
  );
}
