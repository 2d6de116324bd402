/** Listening live at a station: choose the input, see that it is fit, hear each band named, keep each pass. */

import { effect } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { type InputJudged, inputVerdict, levelVerdict } from '../../core/advise/live/inputVerdict.ts';
import type { StationName } from '../../core/job/station.ts';
import { showNumber } from '../../core/words/number.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Caution } from '../parts/Caution.tsx';
import { Select } from '../parts/Choice.tsx';
import { PracticeBench } from '../practice/PracticeBench.tsx';
import { PracticeStart } from '../practice/PracticeStart.tsx';
import { bandWords } from '../side/bandWords.ts';
import { readFile } from '../side/reading.ts';
import './live.css';
import {
  chosenDevice,
  chosenRate,
  devices,
  endPass,
  findDevices,
  inputLine,
  inputNotes,
  type Kept,
  keptPasses,
  type Listening,
  listening,
  liveProblem,
  newestPeak,
  startListening,
  status,
  stopListening,
} from './listening.ts';
import type { LiveStatus } from './liveMessages.ts';
import { Scope } from './Scope.tsx';
import { SecondScreen } from './SecondScreen.tsx';
import { deleteRecording, findRecordings, isKept, storedRecordings } from './storedRecordings.ts';

interface LivePanelProps {
  readonly jobId: string;
  readonly station: StationName;
  /** what this station shows of what plays */
  readonly children?: ComponentChildren;
}

export function LivePanel({ jobId, station, children }: LivePanelProps) {
  const now = listening.value;
  return (
    <section class="card live" aria-label="Listen live">
      {liveProblem.value !== null && (
        <div class="notice bad" role="alert">
          <p>{liveProblem.value}</p>
        </div>
      )}
      {now.phase === 'on' ? (
        <Running on={now}>{children}</Running>
      ) : (
        <>
          <Begin jobId={jobId} station={station} opening={now.phase === 'opening'} />
          {now.phase === 'off' && <PracticeStart jobId={jobId} station={station} />}
        </>
      )}
      {keptPasses.value.length > 0 && <KeptPasses jobId={jobId} station={station} kept={keptPasses.value} />}
      <SecondScreen station={station} />
      {now.phase === 'off' && <Earlier jobId={jobId} station={station} />}
    </section>
  );
}

const RATES = [
  { value: '', label: 'the device’s own' },
  ...[44_100, 48_000, 88_200, 96_000, 192_000].map((hz) => ({ value: String(hz), label: `${hz / 1000} kHz` })),
];

function Begin({ jobId, station, opening }: { jobId: string; station: StationName; opening: boolean }) {
  useEffect(() => void findDevices(), []);
  const named = devices.value.filter(({ deviceId, label }) => deviceId !== '' && label !== '');
  return (
    <details open={liveProblem.value !== null || opening}>
      <summary>
        <b>Listen live</b> <span class="soft">figures while the record plays</span>
      </summary>
      <div class="stack">
        <Caution>{say(statement('live-caution'))}</Caution>
        <div class="buttons">
          <button
            type="button"
            class="button main"
            disabled={opening}
            onClick={() => void startListening(jobId, station)}
          >
            {opening ? 'Opening the input…' : 'Listen'}
          </button>
          <Select
            label="Sound input"
            value={chosenDevice.value}
            onValue={(value) => {
              chosenDevice.value = value;
            }}
            options={[
              { value: '', label: named.length === 0 ? 'the browser asks' : 'the browser’s choice' },
              ...named.map(({ deviceId, label }) => ({ value: deviceId, label })),
            ]}
          />
          <Select
            label="Sample rate"
            value={chosenRate.value}
            onValue={(value) => {
              chosenRate.value = value;
            }}
            options={RATES}
          />
        </div>
        <p class="soft small">{say(statement('live-how'))}</p>
      </div>
    </details>
  );
}

type On = Extract<Listening, { phase: 'on' }>;

function Running({ on, children }: { on: On; children: ComponentChildren }) {
  const now = status.value;
  return (
    <div class="stack">
      <div class="buttons">
        <button type="button" class="button stop" onClick={stopListening}>
          Stop listening
        </button>
        {now?.pass != null && (
          <button type="button" class="button" onClick={endPass}>
            End this pass
          </button>
        )}
        <span class="soft small">Live · {inputLine(on.input)}</span>
      </div>
      {now === null ? (
        <p class="soft">Waiting for the first sound</p>
      ) : (
        <>
          <Input now={now} />
          <Playing now={now} />
          {children}
          {on.practice && <PracticeBench />}
          <Scope />
        </>
      )}
      <details class="small">
        <summary>About this input</summary>
        {inputNotes(on.input).map((note) => (
          <p key={note}>{note}</p>
        ))}
      </details>
    </div>
  );
}

function Input({ now }: { now: LiveStatus }) {
  const judged: InputJudged[] = [...inputVerdict(now.input, now), levelVerdict(now.input, now.playing !== null)];
  return (
    <div class="live-input">
      <Bar name="left" db={now.input.peakDb.left} />
      <Bar name="right" db={now.input.peakDb.right} />
      <ul class="live-verdicts" aria-live="polite">
        {judged.map(({ grade, says }) => (
          <li key={says.code} class={`live-${grade}`} data-code={says.code}>
            {say(says)}
          </li>
        ))}
      </ul>
    </div>
  );
}

const LOWEST_DB = -80;
/** share of the bar's box that it leaves empty, as a style that moves it and lays nothing out anew */
const placeOf = (db: number): string =>
  `translateX(${((100 * Math.max(LOWEST_DB, Math.min(0, db))) / -LOWEST_DB).toFixed(1)}%)`;

function Bar({ name, db }: { name: 'left' | 'right'; db: number }) {
  const shown = Math.max(LOWEST_DB, Math.min(0, db));
  const bar = useRef<HTMLDivElement>(null);
  useEffect(
    () =>
      effect(() => {
        const peak = newestPeak.value;
        if (peak !== null && bar.current !== null)
          bar.current.style.transform = placeOf(name === 'left' ? peak.leftDb : peak.rightDb);
      }),
    [name],
  );
  return (
    <div class="level-row">
      <span>{name}</span>
      <div class={`level ${name}`}>
        <meter
          class="unseen"
          aria-label={`Peak of ${name}`}
          min={LOWEST_DB}
          max={0}
          value={Math.round(shown)}
          aria-valuetext={db <= -200 ? 'no signal' : `${db.toFixed(0)} dBFS`}
        />
        <div ref={bar} />
      </div>
      <span class="level-figure">{db <= -200 ? '–' : `${showNumber(db, 1)} dB`}</span>
    </div>
  );
}

function Playing({ now }: { now: LiveStatus }) {
  const { playing, pass } = now;
  return (
    <div>
      <p class="live-band" data-live-band={playing === null ? '' : bandWords(playing.band)}>
        {playing === null ? (
          <span class="soft">{pass === null ? 'Set the tip down on a test band' : 'Between bands'}</span>
        ) : (
          <>
            <b>{bandWords(playing.band)}</b> <span class="soft">{playing.playingS.toFixed(0)} s</span>
          </>
        )}
      </p>
      {pass !== null && (
        <p class="soft small">
          {say(statement('pass-heard', { pass: pass.number, heardS: pass.heardS }))}{' '}
          {pass.bands.length === 0
            ? say(statement('no-band-over'))
            : say(statement('read-so-far', { bands: pass.bands.map((band) => bandWords(band)).join(', ') }))}
        </p>
      )}
    </div>
  );
}

/** Each pass as a file: to keep elsewhere, or to measure again. */
function KeptPasses({ jobId, station, kept }: { jobId: string; station: StationName; kept: readonly Kept[] }) {
  return (
    <div class="small">
      <h3>Recordings of this listening</h3>
      <MayBeCleared />
      <ul class="kept">
        {kept.map(({ number, file, why }) => (
          <li key={file?.name ?? number}>
            {file === null ? (
              <span>{say(statement('pass-not-recorded', { pass: number, why }))}</span>
            ) : (
              <>
                <span>
                  {file.name}, {(file.size / 1e6).toFixed(1)} MB{why === '' ? '' : `, not to its end: ${why}`}
                </span>{' '}
                <button type="button" class="button plain" onClick={() => saveRecording(file)}>
                  Save as a file
                </button>{' '}
                <button type="button" class="button plain" onClick={() => readFile(file, jobId, station)}>
                  Measure it again as a file
                </button>
              </>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

function MayBeCleared() {
  if (isKept.value !== false) return null;
  return (
    <p class="soft" data-may-be-cleared="">
      {say(statement('may-be-cleared'))}
    </p>
  );
}

/** Of days before, until they are deleted. */
function Earlier({ jobId, station }: { jobId: string; station: StationName }) {
  useEffect(() => void findRecordings(), []);
  const now = new Set(keptPasses.value.map(({ file }) => file?.name));
  const earlier = storedRecordings.value.filter(({ name }) => !now.has(name));
  if (earlier.length === 0) return null;
  const megabytes = earlier.reduce((sum, { size }) => sum + size, 0) / 1e6;
  return (
    <details class="small">
      <summary>
        Recordings in this browser: {earlier.length}, {megabytes.toFixed(0)} MB
      </summary>
      <MayBeCleared />
      <ul class="kept">
        {earlier.map((file) => (
          <li key={file.name}>
            <span>{file.name}</span>{' '}
            <button type="button" class="button plain" onClick={() => saveRecording(file)}>
              Save as a file
            </button>{' '}
            <button type="button" class="button plain" onClick={() => readFile(file, jobId, station)}>
              Measure it as a file
            </button>{' '}
            <button type="button" class="button plain" onClick={() => void deleteRecording(file.name)}>
              Delete
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

function saveRecording(file: File): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
