/** The photographs of a station: taken or picked, each with a note, printed in the technician's report. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { apiPaths, type Job } from '../../core/job/api.ts';
import {
  countWords,
  MOST_PHOTOGRAPHS,
  type Photograph,
  type photographedAt,
  photographNote,
} from '../../core/job/photographs.ts';
import { stationTitles } from '../../core/job/station.ts';
import { addPhotograph, deletePhotograph, notePhotograph } from '../jobState.ts';
import { FilePick } from '../parts/FilePick.tsx';
import { Fold } from '../parts/Fold.tsx';
import { TextField } from '../parts/TextField.tsx';
import './photographs.css';
import { say, statement } from '../../core/words/statement.ts';
import { scaleDown } from './scaleDown.ts';

export interface PhotographsProps {
  readonly job: Job;
  readonly station: (typeof photographedAt)[number];
}

export function Photographs({ job, station }: PhotographsProps) {
  const own = job.photographs.filter((one) => one.station === station);
  const left = MOST_PHOTOGRAPHS - job.photographs.length;
  const [faults, setFaults] = useState<readonly string[]>([]);
  const [busy, setBusy] = useState(false);
  const take = async (files: readonly File[]): Promise<void> => {
    setBusy(true);
    const refused: string[] = [];
    for (const file of files.slice(0, left)) {
      try {
        addPhotograph(job.id, { id: crypto.randomUUID(), station, jpeg: await scaleDown(file, file.name) });
      } catch (error) {
        refused.push(error instanceof Error ? error.message : String(error));
      }
    }
    if (files.length > left) refused.push(say(statement('photographs-left-out', { most: MOST_PHOTOGRAPHS })));
    setFaults(refused);
    setBusy(false);
  };
  return (
    <Fold title="Photographs" answer={own.length === 0 ? 'none' : countWords(own.length)}>
      <div class="buttons">
        {left > 0 && (
          <FilePick several label="Add photographs" accept="image/*" onFiles={(files) => void take(files)} />
        )}
        <span class="soft small" role="status">
          {busy ? 'Making them small…' : say(statement('photographs-are'))}
        </span>
      </div>
      {faults.length > 0 && (
        <div class="notice bad" role="alert">
          {faults.map((fault) => (
            <p key={fault}>{fault}</p>
          ))}
        </div>
      )}
      {own.length > 0 && (
        <ul class="photographs">
          {own.map((one, place) => (
            <OnePhotograph key={one.id} job={job} one={one} name={`${stationTitles[station].title} ${place + 1}`} />
          ))}
        </ul>
      )}
    </Fold>
  );
}

const PAUSE_MS = 400;

function OnePhotograph({ job, one, name }: { job: Job; one: Photograph; name: string }) {
  const [note, setNote] = useState(one.note);
  const [asking, setAsking] = useState(false);
  const cancel = useRef<HTMLButtonElement>(null);
  const unsaved = useRef<string | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const save = (): void => {
    clearTimeout(timer.current);
    if (unsaved.current !== null) notePhotograph(job.id, one.id, { note: unsaved.current });
    unsaved.current = null;
  };
  useEffect(() => save, []);
  useEffect(() => {
    if (asking) cancel.current?.focus();
  }, [asking]);
  const source = apiPaths.photograph(job.id, one.id);
  return (
    <li>
      <a href={source} target="_blank" rel="noreferrer">
        <img src={source} alt={note === '' ? `Photograph: ${name}` : note} width={one.width} height={one.height} />
      </a>
      <TextField
        of={{ ...photographNote, label: `What ${name} shows` }}
        text={note}
        onText={(text) => {
          setNote(text);
          unsaved.current = text;
          clearTimeout(timer.current);
          timer.current = setTimeout(save, PAUSE_MS);
        }}
      />
      <div class="buttons">
        {asking ? (
          <>
            <button
              type="button"
              class="button stop"
              aria-label={`Delete ${name} for good`}
              onClick={() => deletePhotograph(job.id, one.id)}
            >
              Delete
            </button>
            <button type="button" class="button" ref={cancel} onClick={() => setAsking(false)}>
              Cancel
            </button>
          </>
        ) : (
          <button type="button" class="button plain" aria-label={`Delete ${name}`} onClick={() => setAsking(true)}>
            Delete
          </button>
        )}
      </div>
    </li>
  );
}
