/** No record at hand: an invented deck plays an invented side, and its capture goes the way of any recording. */
import { signal } from '@preact/signals';
import type { Field } from '../../core/job/fields/field.ts';
import { typedValue } from '../../core/job/fields/quantity.ts';
import type { StationName } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
import type { PracticeReply, PracticeRequest } from '../audio/practiceMessages.ts';
import { lacksWorkers } from '../browserNeeds.ts';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import { readFile } from './reading.ts';

/** how far the practice deck has played, 0 to 1; null when it stands still */
export const playing = signal<number | null>(null);
const problem = signal<string | null>(null);
const tiltText = signal('1.4');
let seed = 0;
let worker: Worker | null = null;

const TILT: Field = { label: 'Tilt of the practice cartridge', unit: 'deg', min: -5, max: 5 };

/** Plays a side with the tilt that is typed; the capture is then read like any recording. */
export function playPractice(jobId: string, station: StationName): void {
  const tiltDeg = typedValue(tiltText.value, TILT);
  if (tiltDeg === null || playing.value !== null) return;
  seed += 1;
  const lacking = lacksWorkers();
  problem.value = lacking === null ? null : say(lacking);
  if (lacking !== null) return;
  playing.value = 0;
  const mine = new Worker(new URL('../audio/practiceWorker.ts', import.meta.url), { type: 'module' });
  worker = mine;
  mine.onmessage = (event: MessageEvent<PracticeReply>) => {
    const said = event.data;
    if (said.kind === 'progress') {
      playing.value = said.fraction;
      return;
    }
    mine.terminate();
    playing.value = null;
    if (said.kind === 'failed') problem.value = said.sentence;
    else readFile(said.file, jobId, station, true);
  };
  mine.postMessage({ tiltDeg, seed } satisfies PracticeRequest);
}

function stop(): void {
  worker?.terminate();
  playing.value = null;
}

export function PracticeDeck({ jobId, station }: { jobId: string; station: StationName }) {
  const at = playing.value;
  if (at !== null) {
    const percent = Math.floor(at * 100);
    return (
      <div class="stack practice">
        <div
          class="bar"
          role="progressbar"
          aria-label="The practice deck plays"
          aria-valuemin={0}
          aria-valuemax={100}
          aria-valuenow={percent}
        >
          <div style={{ width: `${at * 100}%` }} />
        </div>
        <div class="buttons">
          <button type="button" class="button stop" onClick={stop}>
            Stop
          </button>
          <span class="soft">The practice deck plays its side, faster than a real one · {percent} %</span>
        </div>
      </div>
    );
  }
  return (
    <details class="practice">
      <summary>
        <b>No record? Play the practice deck</b>
      </summary>
      <div class="stack">
        <p class="soft small">{say(statement('practice-deck-is'))}</p>
        <div class="buttons">
          <FieldEntry
            field={TILT}
            text={tiltText.value}
            onText={(text) => {
              tiltText.value = text;
            }}
          />
          <button
            type="button"
            class="button"
            disabled={typedValue(tiltText.value, TILT) === null}
            onClick={() => playPractice(jobId, station)}
          >
            Play
          </button>
        </div>
        {problem.value !== null && <p class="wrong-line">{problem.value}</p>}
      </div>
    </details>
  );
}
