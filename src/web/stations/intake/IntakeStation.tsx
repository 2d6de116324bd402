/** Intake: what came in, gone over point by point, and measured before anything is touched. */
import type { JudgedFinding } from '../../../core/advise/document.ts';
import type { Job } from '../../../core/job/api.ts';
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { harmonicLines } from '../../../core/job/harmonicLines.ts';
import { recordingsOf } from '../../../core/job/recordings.ts';
import { epochWords } from '../../../core/job/recordingWords.ts';
import {
  type Inspected,
  type IntakeTyped,
  inspected,
  inspectedNames,
  intakeFields,
} from '../../../core/job/stations/intake.ts';
import { useHeadField } from '../../headDraft.ts';
import { Check } from '../../parts/Choice.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { stationPath } from '../../route.ts';
import { whereOf } from '../../side/bandWords.ts';
import { HarmonicsTable } from '../../side/HarmonicsTable.tsx';
import { SideReader } from '../../side/SideReader.tsx';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';

export default function IntakeStation({ job }: StationProps) {
  const { data, set } = useStation<IntakeTyped>(job.id, 'intake');
  const checked = data.checked ?? [];
  const tick = (key: Inspected, on: boolean): void =>
    set({ checked: on ? [...checked, key] : checked.filter((one) => one !== key) });
  return (
    <>
      <section class="card" aria-label="The job">
        <div class="fields">
          <TextField maxLength={200} {...useHeadField(job, 'title')} />
          <TextField maxLength={200} {...useHeadField(job, 'customer')} />
          <TextField hint="Its name in all its jobs." maxLength={200} {...useHeadField(job, 'deck.name')} />
          <TextField
            label="Cartridge"
            text={data.cartridge}
            onText={(cartridge) => set({ cartridge })}
            maxLength={200}
          />
          <TypedFields of={intakeFields} names={['stylusHours']} typed={data} set={set} />
          <TextField lines {...useHeadField(job, 'deck.description')} maxLength={5000} />
        </div>
      </section>
      <div class="do">
        <fieldset class="card checklist">
          <legend>Inspected</legend>
          {inspectedNames.map((name) => (
            <Check
              key={name}
              label={inspected[name]}
              checked={checked.includes(name)}
              onChecked={(on) => tick(name, on)}
            />
          ))}
          <p class="soft small" role="status">
            {checked.length} of {inspectedNames.length}
          </p>
        </fieldset>
        <section class="card">
          <div class="fields">
            <TextField
              lines
              label="Faults found"
              hint="Bent cantilever, worn tip, play in the bearings, broken leads: what the owner must know before work begins."
              text={data.faults}
              onText={(faults) => set({ faults })}
              maxLength={5000}
            />
          </div>
        </section>
      </div>
      <Before job={job} />
    </>
  );
}

/** The first recording of the deck as it came is its "before". */
function Before({ job }: { job: Job }) {
  const recordings = recordingsOf(job);
  const first = job.captures.find((_, place) => recordings[place].counts && recordings[place].kind === 'as-received');
  const [, exchanged] = epochsOf(job.fittings);
  if (first === undefined) {
    return (
      <>
        <h3 class="between">
          {exchanged === undefined
            ? 'Before anything is touched: how it measures as it came'
            : `Not measured before. What is read now is of the deck ${epochWords(epochNow(epochsOf(job.fittings)))}.`}
        </h3>
        <SideReader jobId={job.id} station="intake" />
      </>
    );
  }
  const cartridge = epochsOf(job.fittings)[0].fitted.cartridge ?? '';
  return (
    <section class="card" aria-label="As it came">
      <h3>
        As it came{cartridge === '' ? '' : ` with ${cartridge}`}: {first.file}, {first.heardAt.slice(0, 10)}
      </h3>
      {first.findings.length === 0 ? (
        <p>That recording gave no figures.</p>
      ) : (
        <Fold title="Every figure" answer={`${first.findings.length} measured`}>
          <AsItCame findings={first.findings} />
        </Fold>
      )}
      <p class="small">
        Evidence and advice are at <a href={stationPath(job.id, 'tilt')}>Tilt</a> and{' '}
        <a href={stationPath(job.id, 'run')}>Run</a>.
      </p>
    </section>
  );
}

function AsItCame({ findings }: { findings: readonly JudgedFinding[] }) {
  const { lines, note, rest } = harmonicLines(findings);
  return (
    <>
      <FindingList findings={rest} rowOf={(finding) => ({ where: whereOf(finding, findings), withNote: false })} />
      {lines.length > 0 && (
        <details>
          <summary>Harmonics of each tone</summary>
          <HarmonicsTable lines={lines} note={note} />
        </details>
      )}
    </>
  );
}
