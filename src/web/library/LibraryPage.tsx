/** The shelf: every part that the person keeps, to add to, change, copy, take away, and to carry as a file. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { type PartKind, partKinds } from '../../core/job/partFields.ts';
import { typicalClasses } from '../../core/job/typicalClasses.ts';
import { api, ServerSaid } from '../api.ts';
import { job } from '../jobState.ts';
import { Select } from '../parts/Choice.tsx';
import { stationPath } from '../route.ts';
import './library.css';
import { kindWords, markWords, specLine } from '../../core/job/partWords.ts';
import { rangeText, typicalPart } from '../../core/job/typicalParts.ts';
import { type OpenPart, openPart, partAside } from './openPart.ts';
import { PartEditor } from './PartEditor.tsx';
import { PartsTransfer } from './PartsTransfer.tsx';
import { copyOf, draftFrom, emptyDraft, type PartDraft } from './partDraft.ts';
import { readShelf, type ShelfPart, shelf, shelfProblem, takeOffShelf } from './shelf.ts';

type Shown = PartKind | 'all';

export default function LibraryPage() {
  const [shown, setShown] = useState<Shown>('all');
  const [open, setOpen] = useState<OpenPart | null>(null);
  const [said, setSaid] = useState('');
  const add = useRef<HTMLDivElement>(null);
  const parts = shelf.value;
  // an address that names a part opens it once, /parts#its-id; nothing written down since then gives way to it
  const named = useRef(decodeURIComponent(location.hash.slice(1)));
  const setDraft = (next: PartDraft | null): void => {
    if (named.current !== '') history.replaceState(null, '', location.pathname);
    named.current = '';
    open?.leave();
    setOpen(next === null ? null : openPart(next));
    setSaid('');
  };
  useEffect(() => {
    void readShelf();
  }, []);
  useEffect(() => {
    const wanted = parts?.find((one) => one.id === named.current);
    if (wanted !== undefined) setDraft(draftFrom(wanted.part, wanted));
    else if (parts !== null && open === null && named.current === '') setOpen(partAside(parts));
  }, [parts]);
  const bench = job.value;
  const listed = (parts ?? []).filter((one) => shown === 'all' || one.part.kind === shown);
  return (
    <div class="stack">
      <p class="aim">
        What you fit, kept once and picked at Match. Figures as their data sheets state them, units and all.
        {bench !== null && (
          <>
            {' '}
            <a href={stationPath(bench.id, 'match')}>Back to Match of {bench.title}</a>
          </>
        )}
      </p>
      {shelfProblem.value !== null && (
        <div class="notice bad" role="alert">
          <p>
            {shelfProblem.value}{' '}
            <button type="button" class="button plain" onClick={() => void readShelf()}>
              Ask again
            </button>
          </p>
        </div>
      )}
      {open !== null && (
        <PartEditor
          key={open.id}
          part={open}
          onClose={(what) => {
            setDraft(null);
            setSaid(what);
            add.current?.querySelector('button')?.focus();
          }}
        />
      )}
      <section class="card" aria-label="The shelf">
        <fieldset class="part-new">
          <legend>Write down a new</legend>
          <div class="buttons" ref={add}>
            {partKinds.map((kind) => (
              <button key={kind} type="button" class="button" onClick={() => setDraft(emptyDraft(kind))}>
                {kindWords[kind].one}
              </button>
            ))}
          </div>
        </fieldset>
        <div class="fields">
          <Select<Shown>
            label="Show"
            options={[
              { value: 'all', label: 'everything' },
              ...partKinds.map((kind) => ({ value: kind, label: kindWords[kind].many.toLowerCase() })),
            ]}
            value={shown}
            onValue={setShown}
          />
        </div>
        <p role="status" class="part-said">
          {said}
        </p>
        {parts === null && shelfProblem.value === null && <p class="soft">Looking…</p>}
        {parts !== null && listed.length === 0 && <p>Nothing of this kind yet.</p>}
        <PartLists listed={listed} onDraft={setDraft} onSaid={setSaid} />
      </section>
      <PartsTransfer shown={listed} kindShown={shown === 'all' ? 'parts' : kindWords[shown].many.toLowerCase()} />
      <TypicalTable onDraft={setDraft} />
    </div>
  );
}

interface PartRowProps {
  readonly one: ShelfPart;
  onDraft(draft: PartDraft): void;
  onSaid(what: string): void;
}

/** The parts, kind by kind. */
function PartLists({ listed, onDraft, onSaid }: Omit<PartRowProps, 'one'> & { readonly listed: readonly ShelfPart[] }) {
  const kinds = partKinds.filter((kind) => listed.some((one) => one.part.kind === kind));
  return (
    <>
      {kinds.map((kind) => (
        <section key={kind} class="part-kind">
          <h3 class="strong">{kindWords[kind].many}</h3>
          <ul class="part-list">
            {listed
              .filter((one) => one.part.kind === kind)
              .map((one) => (
                <PartRow key={one.id} one={one} onDraft={onDraft} onSaid={onSaid} />
              ))}
          </ul>
        </section>
      ))}
    </>
  );
}

function PartRow({ one, onDraft, onSaid }: PartRowProps) {
  const part = one.part;
  const [asking, setAsking] = useState(false);
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asking) keep.current?.focus();
  }, [asking]);
  const take = async (): Promise<void> => {
    try {
      await api.deletePart(part.kind, one.id).catch((error) => {
        // what is gone already is what was asked for
        if (!(error instanceof ServerSaid && error.status === 404)) throw error;
      });
      takeOffShelf(one.id);
      onSaid(`${part.name} is gone. Jobs that were matched with it keep its figures.`);
    } catch (error) {
      setAsking(false);
      onSaid(`Not deleted: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  return (
    <li>
      <div class="part-words">
        <b>{part.name}</b>
        {part.marked !== undefined && <span class="part-mark">{markWords[part.marked]}</span>}
        <span class="soft small">{specLine(part)}</span>
      </div>
      {asking ? (
        <div class="buttons">
          <span>Delete it for good?</span>
          <button
            type="button"
            class="button stop"
            aria-label={`Delete ${part.name} for good`}
            onClick={() => void take()}
          >
            Delete
          </button>
          <button type="button" class="button" ref={keep} onClick={() => setAsking(false)}>
            Keep it
          </button>
        </div>
      ) : (
        <div class="buttons">
          <button
            type="button"
            class="button plain"
            aria-label={`Change ${part.name}`}
            onClick={() => onDraft(draftFrom(part, one))}
          >
            Change
          </button>
          <button
            type="button"
            class="button plain"
            aria-label={`Copy ${part.name}`}
            onClick={() => onDraft(copyOf(part))}
          >
            Copy
          </button>
          <button type="button" class="button plain" aria-label={`Delete ${part.name}`} onClick={() => setAsking(true)}>
            Delete
          </button>
        </div>
      )}
    </li>
  );
}

function TypicalTable({ onDraft }: { onDraft(draft: PartDraft): void }) {
  return (
    <section class="card" aria-label="Typical classes">
      <h3 class="strong">Typical classes</h3>
      <p class="soft small">
        For when a figure is not known. Ranges are common practice, from no one source: a start, not a specification.
      </p>
      <table class="rows typical">
        <thead>
          <tr>
            <th scope="col">class</th>
            <th scope="col">range</th>
            <th scope="col">start with</th>
            <th scope="col">
              <span class="unseen">Make a part of it</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {typicalClasses.map((one) => (
            <tr key={`${one.kind} ${one.name}`}>
              <th scope="row">{one.name}</th>
              <td>{rangeText(one)}</td>
              <td>
                {one.usual} <span class="pm">{one.unit}</span>
              </td>
              <td>
                <button
                  type="button"
                  class="button plain"
                  aria-label={`Make a part of ${one.name}`}
                  onClick={() => onDraft(draftFrom(typicalPart(one), null))}
                >
                  Make a part
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
