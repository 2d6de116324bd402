/** Parts in and out as files. A file is read all or not at all; what cannot be read is told by row and column. */
import { useRef, useState } from 'preact/hooks';
import type { Part } from '../../core/job/parts.ts';
import { partsToCsv } from '../../core/job/partsCsv.ts';
import { partsToJson } from '../../core/job/partsJson.ts';
import { kindWords } from '../../core/job/partWords.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Choice } from '../parts/Choice.tsx';
import { FilePick } from '../parts/FilePick.tsx';
import { saveFile } from '../saveFile.ts';
import { usePartsDrop } from './partsDrop.ts';
import { type Doubles, isDouble, readPartsFile, takeParts } from './partsFile.ts';
import { type ShelfPart, shelf } from './shelf.ts';

const MOST_SAID = 12;

interface Waiting {
  readonly file: string;
  readonly parts: readonly Part[];
}

interface Faults {
  readonly file: string;
  readonly sentences: readonly string[];
}

const doubleChoices = [
  { value: 'replace', label: 'replace mine' },
  { value: 'keep-both', label: 'keep both' },
  { value: 'leave-out', label: 'leave those out' },
] as const;

const count = (n: number): string => (n === 1 ? 'One part' : `${n} parts`);

export function PartsTransfer({ shown, kindShown }: { shown: readonly ShelfPart[]; kindShown: string }) {
  const [faults, setFaults] = useState<Faults | null>(null);
  const [waiting, setWaiting] = useState<Waiting | null>(null);
  const [doubles, setDoubles] = useState<Doubles>('replace');
  const [said, setSaid] = useState('');
  const read = async (file: File): Promise<void> => {
    setFaults(null);
    setWaiting(null);
    setSaid('');
    const answer = await readPartsFile(file);
    if ('faults' in answer) setFaults({ file: file.name, sentences: answer.faults });
    else setWaiting({ file: file.name, parts: answer.parts });
  };
  // one function for as long as the page is open; it sets state and reads none
  const { current: dropped } = useRef((file: File): void => void read(file));
  usePartsDrop(dropped);
  const parts = shown.map((one) => one.part);
  return (
    <section class="card" aria-label="Import and export of parts">
      <h3>Import and export</h3>
      <div class="buttons">
        <FilePick
          label="Import JSON or CSV"
          accept=".json,.csv,application/json,text/csv"
          onFiles={([file]) => void read(file)}
        />
        <button
          type="button"
          class="button"
          disabled={parts.length === 0}
          onClick={() => saveFile(`${kindShown}.json`, 'application/json', partsToJson(parts))}
        >
          Export as JSON
        </button>
        {/* a byte order mark before CSV lets spreadsheets read Ω and µ */}
        <button
          type="button"
          class="button"
          disabled={parts.length === 0}
          onClick={() => saveFile(`${kindShown}.csv`, 'text/csv', `\uFEFF${partsToCsv(parts)}`)}
        >
          Export as CSV
        </button>
        <span class="soft small">
          {parts.length === 0
            ? say(statement('nothing-to-export'))
            : say(statement('parts-as-shown', { parts: count(parts.length) }))}{' '}
          <a href="/docs/parts">How the files are written</a>
        </span>
      </div>
      <div aria-live="polite">
        {faults !== null && <NothingTaken faults={faults} />}
        {said !== '' && <p role="status">{said}</p>}
      </div>
      {waiting !== null && (
        <WaitingParts
          waiting={waiting}
          doubles={doubles}
          onDoubles={setDoubles}
          onSaid={setSaid}
          onOver={() => setWaiting(null)}
        />
      )}
    </section>
  );
}

function NothingTaken({ faults: { file, sentences } }: { readonly faults: Faults }) {
  return (
    <div class="notice bad part-faults">
      <p>
        <b>{say(statement('nothing-imported-from', { file }))}</b>
      </p>
      <ul>
        {sentences.slice(0, MOST_SAID).map((sentence) => (
          <li key={sentence}>{sentence}.</li>
        ))}
      </ul>
      {sentences.length > MOST_SAID && <p>{say(statement('more-alike', { more: sentences.length - MOST_SAID }))}</p>}
    </div>
  );
}

interface WaitingPartsProps {
  readonly waiting: Waiting;
  readonly doubles: Doubles;
  onDoubles(doubles: Doubles): void;
  onSaid(what: string): void;
  /** taken in, or left */
  onOver(): void;
}

/** Parts that were read, and what is to become of those that are here already. */
function WaitingParts({ waiting: { file, parts }, doubles, onDoubles, onSaid, onOver }: WaitingPartsProps) {
  const [busy, setBusy] = useState(false);
  const here = shelf.value;
  const double = parts.filter((part) => here?.some((own) => isDouble(own.part, part))).length;
  const take = async (): Promise<void> => {
    if (here === null || busy) return;
    setBusy(true);
    const { taken, why } = await takeParts(parts, here, doubles);
    setBusy(false);
    if (why === undefined) {
      onSaid(say(statement('parts-imported', { parts: count(taken), file })));
      onOver();
    } else onSaid(say(statement('parts-imported-before', { why, taken, count: parts.length })));
  };
  return (
    <div class="stack part-waiting">
      <p>
        <b>
          {count(parts.length)} in {file}:
        </b>{' '}
        {parts
          .slice(0, MOST_SAID)
          .map((part) => `${kindWords[part.kind].one} “${part.name}”`)
          .join(', ')}
        {parts.length > MOST_SAID && ' …'}
      </p>
      {double > 0 && (
        <Choice<Doubles>
          label={`${count(double)} ${double === 1 ? 'has' : 'have'} the kind and name of one that is here already`}
          options={doubleChoices}
          value={doubles}
          onValue={onDoubles}
        />
      )}
      <div class="buttons">
        {/* which of them are here already is known only once the shelf is */}
        <button type="button" class="button main" disabled={busy || here === null} onClick={() => void take()}>
          Import them
        </button>
        <button type="button" class="button" onClick={onOver}>
          Cancel
        </button>
      </div>
    </div>
  );
}
