/** The record files of this bench: written down in a form or added as files, saved as files, picked by each job. */
import { useEffect, useState } from 'preact/hooks';
import { RECORD_KIND, recordLine, recordTyped } from '../../core/job/recordFile.ts';
import { KeptRow } from '../library/KeptRow.tsx';
import { LibraryAim } from '../library/LibraryAim.tsx';
import '../library/library.css';
import { statement, say as told } from '../../core/words/statement.ts';
import { useEditing } from '../library/useEditing.ts';
import { FilePick } from '../parts/FilePick.tsx';
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
  const { open, said, add, say, resume, edit, close } = useEditing<OpenRecord>();
  const [fault, setFault] = useState<string | null>(null);
  const files = recordFiles.value;
  useEffect(readRecordFiles, []);
  useEffect(() => {
    if (files !== null && open === null) resume(recordAside(files));
  }, [files === null]);
  const take = async (file: File): Promise<void> => {
    const read = await readRecordText(file);
    setFault('why' in read ? read.why : null);
    if ('why' in read) return;
    keepRecord(read.data);
    say(told(statement('record-in-library', { name: read.name })));
  };
  return (
    <div class="stack">
      <LibraryAim station="tilt">{told(statement('record-files-are-for'))}</LibraryAim>
      {open !== null && <RecordEditor key={open.id} record={open} onClose={close} />}
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
          <p>{told(statement('no-record-file'))}</p>
        ) : (
          <ul class="part-list">
            {files.map((one) => (
              <RecordRow key={one.id} one={one} onEdit={edit} onSaid={say} />
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
  return (
    <KeptRow
      kind={RECORD_KIND}
      id={one.id}
      name={name}
      mark={pickedRecord.value?.id === one.id ? 'this job’s' : undefined}
      line={recordLine(one.sheet)}
      onChange={() => onEdit(openRecord(one))}
      onCopy={() => onEdit(openRecord(null, { ...recordTyped(one.data), name: `${name}, copy` }))}
      onExport={() =>
        saveFile(
          `${name.replace(/[^\p{L}\p{N} ,.-]+/gu, '-')}.record.json`,
          'application/json',
          `${JSON.stringify(one.data, null, 2)}\n`,
        )
      }
      onDeleted={() => {
        takeRecordAway(one.id);
        return told(statement('record-file-deleted', { name }));
      }}
      onSaid={onSaid}
    />
  );
}
