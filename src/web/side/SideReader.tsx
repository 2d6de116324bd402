/** Where a recorded side comes in: drop it or pick it, say what is special about it, see how far reading is, stop it. */
import { say, statement } from '../../core/words/statement.ts';
import './side.css';
import { useEffect, useRef } from 'preact/hooks';
import type { StationName } from '../../core/job/station.ts';
import { showBytes } from '../../core/words/number.ts';
import { Check, Choice } from '../parts/Choice.tsx';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import { FilePick } from '../parts/FilePick.tsx';
import { RecordChoice } from '../records/RecordChoice.tsx';
import { pickedRecord } from '../records/recordLibrary.ts';
import { LearnedLine } from './LearnedLine.tsx';
import { PracticeDeck } from './PracticeDeck.tsx';
import {
  dropNote,
  flatCapture,
  pickedFile,
  pickedPractice,
  type Reading,
  readFile,
  reading,
  readOut,
  SPEED_TONE,
  sheetFault,
  speedChoice,
  speedToneText,
  stopReading,
  takeFiles,
} from './reading.ts';
import { sideDocument } from './shownSide.ts';

const stageWords = {
  opening: 'Opening the recording',
  'finding-bands': 'Listening for the bands',
  measuring: 'Measuring',
  fingerprint: 'Taking the fingerprint',
} as const;

/** Each stage's share of the whole; both long ones read the recording once. */
const stageSpan = {
  opening: [0, 0],
  'finding-bands': [0, 0.5],
  measuring: [0.5, 0.98],
  fingerprint: [0.98, 1],
} as const;

export interface SideReaderProps {
  readonly jobId: string;
  readonly station: StationName;
  /** to read a recording is the next move here; another button is the main one otherwise */
  readonly next?: boolean;
}

export function SideReader({ jobId, station, next = true }: SideReaderProps) {
  const state = reading.value;
  const there = sideDocument.value !== null;
  return (
    <section
      class={there && station !== 'intake' && state.phase !== 'reading' ? 'card reader compact' : 'card reader'}
      aria-label="Read a recorded side"
    >
      {state.phase === 'reading' ? (
        <Progress state={state} />
      ) : (
        <Pick jobId={jobId} station={station} there={there && station !== 'intake'} next={next} />
      )}
      {state.phase === 'failed' && (
        <div class="notice bad" role="alert">
          <p>
            <b>{say(statement('file-not-measured', { file: state.file }))}</b> {state.sentence}
          </p>
        </div>
      )}
      {sheetFault.value !== null && (
        <div class="notice bad" role="alert">
          <p>
            <b>{say(statement('record-file-unused'))}</b> {sheetFault.value}
          </p>
        </div>
      )}
      {state.phase === 'stopped' && (
        <p class="soft" role="status">
          {say(statement('reading-stopped', { file: state.file }))}
        </p>
      )}
      <p class="unseen" role="status">
        {readOut.value}
      </p>
      {dropNote.value !== null && <p role="status">{dropNote.value}</p>}
      {state.phase !== 'reading' && (
        <div class="more">
          <Settings jobId={jobId} station={station} next={next} />
          <PracticeDeck jobId={jobId} station={station} />
        </div>
      )}
    </section>
  );
}

function Pick({ jobId, station, there, next }: Required<SideReaderProps> & { there: boolean }) {
  const take = (files: File[]) => void takeFiles(files, jobId, station);
  return (
    <>
      <p class={there ? 'soft invite-line' : 'invite'}>
        {there ? say(statement('drop-next-pass')) : say(statement('drop-a-side'))}
      </p>
      <div class="buttons">
        <FilePick
          main={next}
          several
          label="Pick a recording"
          accept=".wav,.wave,.flac,.rf64,.bw64,audio/wav,audio/flac"
          onFiles={take}
        />
      </div>
      {next && <RecordChoice />}
      <LearnedLine />
    </>
  );
}

/** Which record it is lies beside the button where a recording is the next move, else in here. */
function Settings({ jobId, station, next }: Required<SideReaderProps>) {
  const file = pickedFile.value;
  const record = pickedRecord.value;
  return (
    <details>
      <summary>
        <b>About this record and recording</b>
      </summary>
      <div class="stack settings">
        {!next && <RecordChoice />}
        <Choice
          label="The record turns at"
          value={speedChoice.value}
          onValue={(value) => {
            speedChoice.value = value;
          }}
          options={[
            { value: 'sheet', label: record === null ? '33⅓' : 'as its record file says' },
            ...(record === null ? [] : [{ value: '33' as const, label: '33⅓' }]),
            { value: '45', label: '45' },
            { value: '78', label: '78' },
          ]}
        />
        <FieldEntry
          field={SPEED_TONE}
          text={speedToneText.value}
          onText={(text) => {
            speedToneText.value = text;
          }}
        />
        <Check
          label="Captured flat: without the playback equalisation of a phono preamp"
          checked={flatCapture.value}
          onChecked={(on) => {
            flatCapture.value = on;
          }}
        />
        {file !== null && (
          <div>
            <button type="button" class="button" onClick={() => readFile(file, jobId, station, pickedPractice.value)}>
              Read {file.name} again so
            </button>
          </div>
        )}
      </div>
    </details>
  );
}

type Running = Extract<Reading, { phase: 'reading' }>;

/** Once the whole recording has been heard the bands still have to be told apart. */
const stepWords = (state: Running): string =>
  state.stage === 'finding-bands' && state.fraction >= 1 ? 'Telling the bands apart' : stageWords[state.stage];

function stepDetail(state: Running): string {
  if (state.stage === 'opening') return showBytes(state.size);
  if (state.stage === 'fingerprint' || state.fraction >= 1)
    return state.stage === 'finding-bands' ? 'the whole recording was heard' : 'nearly there';
  return `${Math.floor(state.fraction * 100)} % of this step, ${showBytes(state.fraction * state.size)} of ${showBytes(state.size)}`;
}

function Progress({ state }: { state: Running }) {
  const [from, to] = stageSpan[state.stage];
  const whole = from + (to - from) * state.fraction;
  const percent = Math.floor(whole * 100);
  const stop = useRef<HTMLButtonElement>(null);
  const hadFocus = useRef(document.activeElement === document.body || document.activeElement === null);
  useEffect(() => {
    // the control that began this is gone; the keyboard goes on from the one that ends it
    if (hadFocus.current || !document.activeElement || document.activeElement === document.body) stop.current?.focus();
    const button = stop.current;
    return () => {
      // and when it is over, from the heading of the station
      if (document.activeElement === button || document.activeElement === document.body) {
        document.querySelector<HTMLElement>('main h2')?.focus({ preventScroll: true });
      }
    };
  }, []);
  return (
    <div class="stack">
      <p class="invite">
        <b>{stepWords(state)}</b> · {state.file}
      </p>
      <div
        class="bar"
        role="progressbar"
        aria-label={`Reading ${state.file}`}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={percent}
        aria-valuetext={`${stepWords(state)}, ${percent} percent of the whole`}
      >
        <div style={{ width: `${whole * 100}%` }} />
      </div>
      <div class="buttons">
        <button type="button" class="button stop" ref={stop} onClick={stopReading}>
          Stop
        </button>
        <span class="soft progress-words">
          {percent} % of the whole · {stepDetail(state)}
        </span>
      </div>
      {/* told once a stage, not at every step */}
      <p class="unseen" role="status">
        {stepWords(state)}
      </p>
    </div>
  );
}
