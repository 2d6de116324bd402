/** Every recording of the job: what it is, whether it counts, and what a person may say of it. Nothing is deleted here. */

import { useId, useState } from 'preact/hooks';
import type { CaptureEntry, Job } from '../../core/job/api.ts';
import { epochsOf } from '../../core/job/epochs.ts';
import { asideWording } from '../../core/job/fields/wording.ts';
import { type Recording, type RecordingKind, recordingKinds, recordingsOf } from '../../core/job/recordings.ts';
import { epochWords, recordingKindWords, whyNot } from '../../core/job/recordingWords.ts';
import { stationTitles } from '../../core/job/station.ts';
import { sentence, statement, say as told } from '../../core/words/statement.ts';
import { sayOfRecording } from '../jobState.ts';
import { timeHere } from '../localTime.ts';
import { Select } from '../parts/Choice.tsx';
import { Fold } from '../parts/Fold.tsx';
import { TextField } from '../parts/TextField.tsx';
import { showCapture, shownSide } from '../side/shownSide.ts';

export function RecordingsList({ job }: { job: Job }) {
  if (job.captures.length === 0) return null;
  const recordings = recordingsOf(job);
  const counting = recordings.filter(({ now, counts }) => now && counts).length;
  return (
    <Fold title="Recordings of this job" answer={countWords(job, counting)}>
      <ul class="findings">
        {job.captures.map((capture, place) => (
          <Row key={capture.id} job={job} capture={capture} recording={recordings[place]} />
        ))}
      </ul>
    </Fold>
  );
}

/** How many there are, and how many of them speak of what is on the deck now. */
function countWords(job: Job, counting: number): string {
  const all = job.captures.length;
  if (counting === all) return `${all}`;
  const count = counting === 0 ? 'none counts' : counting === 1 ? '1 counts' : `${counting} count`;
  return `${all}, of which ${count}${job.fittings.length > 0 ? ' for what is fitted' : ''}`;
}

interface RowProps {
  readonly job: Job;
  readonly capture: CaptureEntry;
  readonly recording: Recording;
}

function Row({ job, capture, recording }: RowProps) {
  const [asking, setAsking] = useState(false);
  const why = whyNot(capture, recording);
  const epochs = epochsOf(job.fittings);
  const [kind, since] = [recordingKindWords[recording.kind], epochWords(recording.epoch)];
  const say = (change: Parameters<typeof sayOfRecording>[2]) => sayOfRecording(job.id, capture.id, change);
  const shown = shownSide.value?.captureId === capture.id;
  return (
    <li class="finding">
      <span class="name">
        {capture.file}
        <span class="soft">
          {' '}
          · {kind}
          {epochs.length > 1 && since !== kind ? `, ${since}` : ''} · {timeHere(capture.heardAt)} at{' '}
          {stationTitles[capture.station].title}
        </span>
      </span>
      <span class="said">
        {why !== null && <span>Does not count. {sentence(why)} </span>}
        <span class="buttons">
          <button
            type="button"
            class="button plain"
            aria-label={`Show ${capture.file}`}
            aria-pressed={shown}
            onClick={() => void showCapture(job.id, capture.id)}
          >
            Show
          </button>
          {capture.setAside === null ? (
            <button
              type="button"
              class="button plain"
              aria-label={`Set aside or say what it is: ${capture.file}`}
              aria-expanded={asking}
              onClick={() => setAsking(!asking)}
            >
              Set aside or say what it is
            </button>
          ) : (
            <button
              type="button"
              class="button plain"
              aria-label={`Take it in again: ${capture.file}`}
              onClick={() => say({ setAside: null })}
            >
              Take it in again
            </button>
          )}
        </span>
      </span>
      {asking && capture.setAside === null && (
        <Saying job={job} capture={capture} recording={recording} onSaid={() => setAsking(false)} />
      )}
    </li>
  );
}

const BY_ITSELF = 'by-itself';

function Saying({ job, capture, recording, onSaid }: RowProps & { onSaid(): void }) {
  const id = useId();
  const [why, setWhy] = useState('');
  const epochs = epochsOf(job.fittings);
  const say = (change: Parameters<typeof sayOfRecording>[2]) => sayOfRecording(job.id, capture.id, change);
  return (
    <div class="stack">
      <div class="fields">
        <Select<RecordingKind | typeof BY_ITSELF>
          label={`What ${capture.file} is`}
          value={capture.saidKind ?? BY_ITSELF}
          options={[
            {
              value: BY_ITSELF,
              label: `by where and when: ${capture.saidKind === null ? recordingKindWords[recording.kind] : 'found again'}`,
            },
            ...recordingKinds.map((kind) => ({ value: kind, label: recordingKindWords[kind] })),
          ]}
          onValue={(kind) => say({ kind: kind === BY_ITSELF ? null : kind })}
        />
        {epochs.length > 1 && (
          <Select<string>
            label={`What was fitted when ${capture.file} was heard`}
            value={capture.saidEpoch ?? BY_ITSELF}
            options={[
              { value: BY_ITSELF, label: 'by its time' },
              ...epochs.map((epoch) => ({ value: epoch.id, label: epochWords(epoch) })),
            ]}
            onValue={(epoch) => say({ epoch: epoch === BY_ITSELF ? null : epoch })}
          />
        )}
        <TextField
          of={{ ...asideWording, label: `Why ${capture.file} is set aside` }}
          hint={told(statement('recording-aside-stays'))}
          text={why}
          onText={setWhy}
        />
      </div>
      <div class="buttons">
        <button
          type="button"
          class="button"
          disabled={why.trim() === ''}
          aria-describedby={id}
          onClick={() => {
            say({ setAside: { why: why.trim() } });
            onSaid();
          }}
        >
          Set it aside
        </button>
        <span class="unseen" id={id}>
          {told(statement('reason-needed'))}
        </span>
      </div>
    </div>
  );
}
