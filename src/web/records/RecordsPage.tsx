/** The record files of this bench: written down in a form or added as files, saved as files, picked by each job. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { RECORD_KIND, recordLine, recordTyped } from '../../core/job/recordFile.ts';
import { api, ServerSaid } from '../api.ts';
import '../library/library.css';
import { job } from '../jobState.ts';
import { FilePick } from '../parts/FilePick.tsx';
import { stationPath } from '../route.ts';
import { saveFile } from '../saveFile.ts';
import { readRecordText } from '../side/reading.ts';
import { type OpenRecord, openRecord, recordAside } from './openRecord.ts';
import { RecordEditor } from './RecordEditor.tsx';
import {
  type KeptRecord,
  keepRecord,
  pickedRecord,
  readRecordFiles,
  recordFiles,
  takeRecordAway,
} from './recordLibrary.ts';

export default function RecordsPage() {
  const [open, setOpen] = useState<OpenRecord | null>(null);
  const [said, setSaid] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const add = useRef<HTMLDivElement>(null);
  const files = recordFiles.value;
  useEffect(readRecordFiles, []);
  useEffect(() => {
    if (files !== null && open === null) setOpen(recordAside(files));
  }, [files === null]);
  const bench = job.value;
  const edit = (next: OpenRecord): void => {
    open?.leave();
    setSaid('');
    setOpen(next);
  };
  const take = async (file: File): Promise<void> => {
    const read = await readRecordText(file);
    setFault('why' in read ? read.why : null);
    if ('why' in read) return;
    keepRecord(read.data);
    setSaid(`${read.name} is in the library.`);
  };
  return (
    <div class="stack">
      <p class="aim">
        What is cut on each test record. A record file lets the bench tell bands apart and set levels, radii and the
        record’s own faults right.
        {bench !== null && (
          <>
            {' '}
            <a href={stationPath(bench.id, 'tilt')}>Back to Tilt of {bench.title}</a>
          </>
        )}
      </p>
      {open !== null && (
        <RecordEditor
          key={open.id}
          record={open}
          onClose={(what) => {
            setOpen(null);
            setSaid(what);
            add.current?.querySelector('button')?.focus();
          }}
        />
      )}
      <section class="card" aria-label="Record files">
        <div class="buttons" ref={add}>
          <button type="button" class="button main" onClick={() => edit(openRecord(null))}>
            New record file
          </button>
          <FilePick label="Import a file" accept=".json,application/json" onFiles={([file]) => void take(file)} />
          <a href="/docs/contract">How the file is written</a>
        </div>
        <p role="status" class="part-said">
          {said}
        </p>
        {fault !== null && (
          <div class="notice bad" role="alert">
            <p>
              <b>Nothing was imported.</b> {fault}
            </p>
          </div>
        )}
        {files === null ? (
          <p class="soft">Opening…</p>
        ) : files.length === 0 ? (
          <p>No record file yet.</p>
        ) : (
          <ul class="part-list">
            {files.map((one) => (
              <RecordRow key={one.id} one={one} onEdit={edit} onSaid={setSaid} />
            ))}
          </ul>
        )}
      </section>
    </div>
  );
}

interface RecordRowProps {
  readonly one: KeptRecord;
  onEdit(record: OpenRecord): void;
  onSaid(what: string): void;
}

function RecordRow({ one, onEdit, onSaid }: RecordRowProps) {
  const { name } = one.sheet;
  const [asking, setAsking] = useState(false);
  const cancel = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asking) cancel.current?.focus();
  }, [asking]);
  const take = async (): Promise<void> => {
    try {
      await api.deletePart(RECORD_KIND, one.id).catch((error) => {
        // what is gone already is what was asked for
        if (!(error instanceof ServerSaid && error.status === 404)) throw error;
      });
      takeRecordAway(one.id);
      onSaid(`${name} is deleted. Figures that were measured with it stay.`);
    } catch (error) {
      setAsking(false);
      onSaid(`Not deleted: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  return (
    <li>
      <div class="part-words">
        <b>{name}</b>
        {pickedRecord.value?.id === one.id && <span class="part-mark">this job’s</span>}
        <span class="soft small">{recordLine(one.sheet)}</span>
      </div>
      {asking ? (
        <div class="buttons">
          <span>Delete it for good?</span>
          <button type="button" class="button stop" aria-label={`Delete ${name} for good`} onClick={() => void take()}>
            Delete
          </button>
          <button type="button" class="button" ref={cancel} onClick={() => setAsking(false)}>
            Cancel
          </button>
        </div>
      ) : (
        <div class="buttons">
          <button
            type="button"
            class="button plain"
            aria-label={`Change ${name}`}
            onClick={() => onEdit(openRecord(one))}
          >
            Change
          </button>
          <button
            type="button"
            class="button plain"
            aria-label={`Copy ${name}`}
            onClick={() => onEdit(openRecord(null, { ...recordTyped(one.data), name: `${name}, copy` }))}
          >
            Copy
          </button>
          <button
            type="button"
            class="button plain"
            aria-label={`Export ${name}`}
            onClick={() =>
              saveFile(
                `${name.replace(/[^\p{L}\p{N} ,.-]+/gu, '-')}.record.json`,
                'application/json',
                `${JSON.stringify(one.data, null, 2)}\n`,
              )
            }
          >
            Export
          </button>
          <button type="button" class="button plain" aria-label={`Delete ${name}`} onClick={() => setAsking(true)}>
            Delete
          </button>
        </div>
      )}
    </li>
  );
}
