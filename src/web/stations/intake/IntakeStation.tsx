/** Intake: what came in, inspected item by item, and measured before anything is touched. */
import { say, sentence, statement } from '../../../core/words/statement.ts';
import './intake.css';
import type { JudgedFinding } from '../../../core/advise/document.ts';
import type { CaptureEntry, Job } from '../../../core/job/api.ts';
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { harmonicLines } from '../../../core/job/harmonicLines.ts';
import { recordingsOf } from '../../../core/job/recordings.ts';
import { epochWords, whyNot } from '../../../core/job/recordingWords.ts';
import {
  graded,
  type IntakeTyped,
  inspected,
  inspectionWords,
  intakeFields,
  intakeWordings,
} from '../../../core/job/stations/intake.ts';
import { useHeadField } from '../../headDraft.ts';
import { dayHere } from '../../localTime.ts';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { Photographs } from '../../photographs/Photographs.tsx';
import { stationPath } from '../../route.ts';
import { whereOf } from '../../side/bandWords.ts';
import { HarmonicsTable } from '../../side/HarmonicsTable.tsx';
import { dropNote, reading, sheetFault } from '../../side/reading.ts';
import { SideReader } from '../../side/SideReader.tsx';
import { useStation } from '../../useStation.ts';
import { GoOn } from '../GoOn.tsx';
import type { StationProps } from '../station.ts';
import { DeckHistory } from './DeckHistory.tsx';
import { InspectionList, NextItem } from './Inspection.tsx';

const firstLine = (text: string | undefined): string => (text ?? '').trim().split('\n')[0];

export default function IntakeStation({ job }: StationProps) {
  const { data, set, status } = useStation<IntakeTyped>(job.id, 'intake');
  const recordings = recordingsOf(job);
  const first = job.captures.find((_, place) => recordings[place].counts && recordings[place].kind === 'as-received');
  const inspecting = graded(data).open.length > 0;
  const words = useHeadField(job, 'deck.description');
  // once another part is on the deck it cannot be measured as it came
  const over = first !== undefined || job.fittings.length > 0;
  // one is enough, and another is wanted now and then: folded, while there is nothing to say of it
  const toSay = reading.value.phase !== 'idle' || dropNote.value !== null || sheetFault.value !== null;
  const folded = first !== undefined && !toSay;
  const reader = !folded && <SideReader jobId={job.id} station="intake" next={!inspecting && !over} />;
  return (
    <>
      <section class="card" aria-label="As it came">
        <p class="turn">{asItCame(job, first, status === 'done')}</p>
        <NotCounting job={job} />
        <p>Inspection: {inspectionWords(data)}.</p>
        {graded(data).fault.map((name) => (
          <p key={name} class="wrong-line">
            ✕ {inspected[name]}: {data.inspection?.[name]?.note?.trim() || 'at fault'}
          </p>
        ))}
        {first !== undefined && (
          <p class="small">
            {first.findings.length === 0 ? `${say(statement('recording-gave-none'))} ` : ''}
            {say(statement('evidence-and-advice'))} <a href={stationPath(job.id, 'tilt')}>Tilt</a>,{' '}
            <a href={stationPath(job.id, 'run')}>Run</a>
          </p>
        )}
        {over && !inspecting && <GoOn job={job} station="intake" />}
      </section>
      {inspecting ? <NextItem data={data} set={set} /> : reader}
      <section class="card" aria-label="The job">
        <div class="fields">
          <TextField {...useHeadField(job, 'title')} />
          <TextField {...useHeadField(job, 'customer')} />
          <TextField {...useHeadField(job, 'deck.name')} />
          <TextField of={intakeWordings.cartridge} text={data.cartridge} onText={(cartridge) => set({ cartridge })} />
          <TypedFields of={intakeFields} names={['stylusHours']} typed={data} set={set} />
        </div>
      </section>
      {inspecting && reader}
      <div class="folds">
        <Fold title="Inspection" answer={inspectionWords(data)}>
          <InspectionList data={data} set={set} />
        </Fold>
        <Fold title="Other faults" answer={firstLine(data.faults) || 'none'}>
          <TextField of={intakeWordings.faults} text={data.faults} onText={(faults) => set({ faults })} />
        </Fold>
        {folded && job.fittings.length === 0 && (
          <Fold title="Another recording" answer="before anything is touched">
            <SideReader jobId={job.id} station="intake" next={false} />
          </Fold>
        )}
        <DeckHistory job={job} heard={job.captures.length} />
        <Photographs job={job} station="intake" />
        <Fold title="About the deck" answer={firstLine(words.text) || 'none'}>
          <TextField {...words} />
        </Fold>
        {first !== undefined && first.findings.length > 0 && (
          <Fold title="Every figure" answer={`${first.findings.length} measured`}>
            <AsItCame findings={first.findings} />
          </Fold>
        )}
      </div>
    </>
  );
}

/** The newest recording made here says nothing of the deck: which, and why. */
function NotCounting({ job }: { readonly job: Job }) {
  const place = job.captures.findLastIndex(({ station }) => station === 'intake');
  if (place < 0) return null;
  const [capture, recording] = [job.captures[place], recordingsOf(job)[place]];
  const why = recording.counts ? null : whyNot(capture, recording);
  if (why === null) return null;
  return (
    <div class="notice" role="status">
      <p>
        <b>{say(statement('recording-does-not-count', { file: capture.file }))}</b> {sentence(why)}
      </p>
    </div>
  );
}

/**
 * The first recording of the deck as it came is its "before".
 * @param closed nobody means to measure it any more
 */
function asItCame(job: Job, first: CaptureEntry | undefined, closed: boolean): string {
  const [before, exchanged] = epochsOf(job.fittings);
  if (first !== undefined) {
    const cartridge = before.fitted.cartridge ?? '';
    const heard = { file: first.file, day: dayHere(first.heardAt) };
    return say(
      cartridge === '' ? statement('as-it-came', heard) : statement('as-it-came-with', { ...heard, cartridge }),
    );
  }
  return exchanged === undefined
    ? say(statement(closed ? 'not-measured-as-came' : 'not-yet-measured-as-came'))
    : say(statement('not-measured-before', { fitted: epochWords(epochNow(epochsOf(job.fittings))) }));
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
