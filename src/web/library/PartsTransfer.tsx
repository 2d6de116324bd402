/** Parts in and out as files. A file is read all or not at all; what cannot be read is told by row and column. */
import { useRef, useState } from 'preact/hooks';
import { leafChanges } from '../../core/job/leafPaths.ts';
import { faultSentence } from '../../core/job/partFault.ts';
import type { Part } from '../../core/job/parts.ts';
import { partsFromCsv, partsToCsv } from '../../core/job/partsCsv.ts';
import { partsFromJson, partsToJson } from '../../core/job/partsJson.ts';
import { kindWords } from '../../core/job/partWords.ts';
import { api, ServerSaid } from '../api.ts';
import { Choice } from '../parts/Choice.tsx';
import { fileText } from './fileText.ts';
import { usePartsDrop } from './partsDrop.ts';
import { placeOnShelf, type ShelfPart, shelf } from './shelf.ts';

const LARGEST_FILE = 5_000_000;
const MOST_SAID = 12;

interface Waiting {
  readonly file: string;
  readonly parts: readonly Part[];
}

type Doubles = 'replace' | 'keep-both' | 'leave-out';

const doubleChoices = [
  { value: 'replace', label: 'replace mine' },
  { value: 'keep-both', label: 'keep both' },
  { value: 'leave-out', label: 'leave those out' },
] as const;

const same = (a: Part, b: Part): boolean => a.kind === b.kind && a.name.trim() === b.name.trim();
const count = (n: number): string => (n === 1 ? 'One part' : `${n} parts`);

export function PartsTransfer({ shown, kindShown }: { shown: readonly ShelfPart[]; kindShown: string }) {
  const [faults, setFaults] = useState<{ file: string; sentences: readonly string[] } | null>(null);
  const [waiting, setWaiting] = useState<Waiting | null>(null);
  const [doubles, setDoubles] = useState<Doubles>('replace');
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const read = async (file: File): Promise<void> => {
    setFaults(null);
    setWaiting(null);
    setSaid('');
    if (file.size > LARGEST_FILE) {
      setFaults({ file: file.name, sentences: ['it holds over 5 MB; a list of parts was expected'] });
      return;
    }
    const letters = fileText(new Uint8Array(await file.arrayBuffer()));
    if (!letters.found) {
      setFaults({ file: file.name, sentences: [letters.why] });
      return;
    }
    const { text } = letters;
    const json = /\.json$/i.test(file.name) || (!/\.csv$/i.test(file.name) && /^\s*[[{]/.test(text));
    const answer = json ? partsFromJson(text) : partsFromCsv(text);
    if (answer.faults.length > 0) setFaults({ file: file.name, sentences: answer.faults.map(faultSentence) });
    else if (answer.parts.length === 0) setFaults({ file: file.name, sentences: ['there is no part in it'] });
    else setWaiting({ file: file.name, parts: answer.parts });
  };
  // one function for as long as the page is open; it sets state and reads none
  const { current: dropped } = useRef((file: File): void => void read(file));
  usePartsDrop(dropped);
  const mine = (shelf.value ?? []).map((one) => one.part);
  const double = waiting?.parts.filter((part) => mine.some((own) => same(own, part))).length ?? 0;
  const take = async (): Promise<void> => {
    if (waiting === null || busy) return;
    setBusy(true);
    let taken = 0;
    // two of one name in the file itself are both kept: only what was here before is replaced, and once
    const before = new Set(shelf.value ?? []);
    try {
      for (const part of waiting.parts) {
        const there = [...before].find((one) => same(one.part, part));
        if (there !== undefined && doubles === 'leave-out') continue;
        const over = there !== undefined && doubles === 'replace';
        if (over) before.delete(there);
        const changes = leafChanges(over ? there.part : {}, part);
        const record = await api
          .changePart(part.kind, over ? there.id : crypto.randomUUID(), { changes })
          .catch((error) => {
            if (!(error instanceof ServerSaid && error.status === 409)) throw error;
            throw new Error(`${part.name} was changed in another window meanwhile.`);
          });
        placeOnShelf(record);
        taken += 1;
      }
      setSaid(`${count(taken)} from ${waiting.file} taken in.`);
      setWaiting(null);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      setSaid(`${why} ${taken} of ${waiting.parts.length} parts were imported before it.`);
    } finally {
      setBusy(false);
    }
  };
  const parts = shown.map((one) => one.part);
  return (
    <section class="card" aria-label="Parts in and out as files">
      <h3>In and out as files</h3>
      <div class="buttons">
        <label class="button">
          <span>Take in a JSON or CSV file</span>
          <input
            type="file"
            accept=".json,.csv,application/json,text/csv"
            onChange={(event) => {
              const [file] = event.currentTarget.files ?? [];
              event.currentTarget.value = '';
              if (file !== undefined) void read(file);
            }}
          />
        </label>
        <button
          type="button"
          class="button"
          disabled={parts.length === 0}
          onClick={() => save(`${kindShown}.json`, 'application/json', partsToJson(parts))}
        >
          Save as JSON
        </button>
        <button
          type="button"
          class="button"
          disabled={parts.length === 0}
          onClick={() => save(`${kindShown}.csv`, 'text/csv', `\uFEFF${partsToCsv(parts)}`)}
        >
          Save as CSV
        </button>
        <span class="soft small">
          {parts.length === 0 ? 'Nothing to save.' : `${count(parts.length)} as shown above.`}{' '}
          <a href="/docs/parts">How the files are written</a>
        </span>
      </div>
      <div aria-live="polite">
        {faults !== null && (
          <div class="notice bad part-faults">
            <p>
              <b>Nothing was taken from {faults.file}.</b>
            </p>
            <ul>
              {faults.sentences.slice(0, MOST_SAID).map((sentence) => (
                <li key={sentence}>{sentence}.</li>
              ))}
            </ul>
            {faults.sentences.length > MOST_SAID && <p>And {faults.sentences.length - MOST_SAID} more of the kind.</p>}
          </div>
        )}
        {said !== '' && <p role="status">{said}</p>}
      </div>
      {waiting !== null && (
        <div class="stack part-waiting">
          <p>
            <b>
              {count(waiting.parts.length)} in {waiting.file}:
            </b>{' '}
            {waiting.parts
              .slice(0, MOST_SAID)
              .map((part) => `${kindWords[part.kind].one} “${part.name}”`)
              .join(', ')}
            {waiting.parts.length > MOST_SAID && ' …'}
          </p>
          {double > 0 && (
            <Choice<Doubles>
              label={`${count(double)} ${double === 1 ? 'has' : 'have'} the kind and name of one that is here already`}
              options={doubleChoices}
              value={doubles}
              onValue={setDoubles}
            />
          )}
          <div class="buttons">
            {/* which of them are here already is known only once the shelf is */}
            <button
              type="button"
              class="button main"
              disabled={busy || shelf.value === null}
              onClick={() => void take()}
            >
              Take them in
            </button>
            <button type="button" class="button" onClick={() => setWaiting(null)}>
              Leave them
            </button>
          </div>
        </div>
      )}
    </section>
  );
}

/** Hands the browser a file of what is on the page; a byte order mark before CSV lets spreadsheets read Ω and µ. */
function save(name: string, type: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
