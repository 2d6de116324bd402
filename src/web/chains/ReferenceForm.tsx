/** A reference recording written down, or one that is there changed: which recording, its certificate, and until when that holds. */
import { useEffect, useState } from 'preact/hooks';
import { fingerprint } from '../../core/capture/fingerprint.ts';
import type { NewReference, ReferenceList } from '../../core/job/chains/chain.ts';
import { type DayField, MOST_LINE, type Wording } from '../../core/job/fields/wording.ts';
import { leafChanges } from '../../core/job/leafPaths.ts';
import { recordKey } from '../../core/record/recordKey.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { fileSource } from '../fileSource.ts';
import { Select } from '../parts/Choice.tsx';
import { DayEntry } from '../parts/DayEntry.tsx';
import { FilePick } from '../parts/FilePick.tsx';
import { TextField } from '../parts/TextField.tsx';
import { readRecordFiles, recordFiles } from '../records/recordLibrary.ts';
import { nothingTyped, type ReferenceTyped, referenceFrom } from './referenceForm.ts';

const nameWording: Wording = { label: 'Name of the reference', most: MOST_LINE };
const certificateWording: Wording = { label: 'Certificate', most: MOST_LINE, help: 'its number, who gave it' };
const expiresField: DayField = { label: 'Holds until', min: '1950-01-01', max: '9999-12-31' };

interface ReferenceFormProps {
  /** the one that is changed, as it was when the form was opened; null: a new one */
  readonly from: NewReference | null;
  readonly known: ReferenceList['references'];
  readonly today: string;
  onKept(said: string): void;
  onCancel(): void;
}

export function ReferenceForm({ from: given, known, today, onKept, onCancel }: ReferenceFormProps) {
  const [from, setFrom] = useState(given);
  const [typed, setTyped] = useState<ReferenceTyped>(given ?? nothingTyped);
  const [file, setFile] = useState('');
  const [faults, setFaults] = useState<readonly string[]>([]);
  const [busy, setBusy] = useState(false);
  useEffect(readRecordFiles, []);
  const set = (change: Partial<ReferenceTyped>): void => setTyped((before) => ({ ...before, ...change }));

  const choose = async (recording: File): Promise<void> => {
    setBusy(true);
    setFaults([]);
    set({ fingerprint: '' });
    try {
      const found = await fingerprint(fileSource(recording), (share) =>
        setFile(say(statement('reference-reading', { file: recording.name, percent: Math.floor(100 * share) }))),
      );
      const there = known.find((one) => one.fingerprint === found);
      if (there === undefined) {
        setFrom(null);
        set({ fingerprint: found });
        setFile(say(statement('reference-read', { file: recording.name, fingerprint: found.slice(0, 12) })));
      } else {
        const { addedAt: _, state: __, ...kept } = there;
        setFrom(kept);
        setTyped(kept);
        setFile(say(statement('reference-known', { file: recording.name, name: there.name })));
      }
    } catch (error) {
      setFile('');
      setFaults([error instanceof Error ? error.message : String(error)]);
    }
    setBusy(false);
  };

  const write = async (event: Event): Promise<void> => {
    event.preventDefault();
    const read = referenceFrom(typed);
    if (!('reference' in read)) {
      setFaults([...read.missing.map(say), ...(read.why === null ? [] : [`${read.why}.`])]);
      return;
    }
    const { fingerprint: of, ...is } = read.reference;
    const { fingerprint: _, ...was } = from ?? { fingerprint: of };
    setFaults([]);
    setBusy(true);
    try {
      const { name, expires } = await api.changeReference(of, { changes: leafChanges(was, is) });
      onKept(say(statement('reference-kept', { name, expires })));
    } catch (error) {
      setFaults([error instanceof Error ? error.message : String(error)]);
      setBusy(false);
    }
  };

  return (
    <form class="stack" onSubmit={(event) => void write(event)}>
      <p class="soft">{say(statement('reference-is'))}</p>
      {given === null && (
        <FilePick
          label="Choose the recording"
          accept=".wav,.flac,audio/*"
          hint="WAV or FLAC; it stays where it is"
          onFiles={([one]) => void choose(one)}
        />
      )}
      <p role="status">{file}</p>
      <Certificate typed={typed} onTyped={set} />
      {typed.expires !== '' && typed.expires < today && <p class="small">{say(statement('reference-runs-out'))}</p>}
      <div class="buttons">
        <button type="submit" class="button" disabled={busy}>
          Keep the reference
        </button>
        <button type="button" class="button" onClick={onCancel}>
          Cancel
        </button>
      </div>
      {faults.length > 0 && (
        <ul class="wrong-line" role="alert">
          {faults.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
    </form>
  );
}

interface CertificateProps {
  readonly typed: ReferenceTyped;
  onTyped(change: Partial<ReferenceTyped>): void;
}

function Certificate({ typed, onTyped }: CertificateProps) {
  const { name, record, certificate, expires } = typed;
  const files = new Map((recordFiles.value ?? []).map(({ sheet }) => [recordKey(sheet), sheet.name]));
  // the one that it has may not be in the library
  if (record !== null && !files.has(record.key)) files.set(record.key, record.name);
  const pick = (key: string): void => {
    const named = files.get(key);
    if (named === undefined) onTyped({ record: null });
    else onTyped({ record: { key, name: named }, ...(name.trim() === '' ? { name: named } : {}) });
  };
  return (
    <>
      <div class="fields">
        <Select
          label="Record file of the certificate"
          value={record?.key ?? ''}
          options={[{ value: '', label: 'none chosen' }, ...[...files].map(([value, label]) => ({ value, label }))]}
          onValue={pick}
        />
        <TextField of={nameWording} text={name} onText={(text) => onTyped({ name: text })} />
        <TextField of={certificateWording} text={certificate} onText={(text) => onTyped({ certificate: text })} />
        <DayEntry field={expiresField} day={expires} onDay={(day) => onTyped({ expires: day })} />
      </div>
      {files.size === 0 && recordFiles.value !== null && (
        <p class="small">
          {say(statement('reference-needs-files'))} <a href="/records">Record files</a>
        </p>
      )}
    </>
  );
}
