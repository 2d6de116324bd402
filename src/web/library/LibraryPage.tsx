/** The shelf: every part that the person keeps, to add to, change, copy, take away, and to carry as a file. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { type PartKind, partKinds } from '../../core/job/partFields.ts';
import { typicalClasses } from '../../core/job/typicalClasses.ts';
import { Select } from '../parts/Choice.tsx';
import './library.css';
import { kindWords, markWords, specLine } from '../../core/job/partWords.ts';
import { rangeText, typicalPart } from '../../core/job/typicalParts.ts';
import { statement, say as told } from '../../core/words/statement.ts';
import { partsTurn } from '../storeTurn.ts';
import { KeptRow } from './KeptRow.tsx';
import { LibraryAim } from './LibraryAim.tsx';
import { type OpenPart, openPart, partAside } from './openPart.ts';
import { PartEditor } from './PartEditor.tsx';
import { PartsTransfer } from './PartsTransfer.tsx';
import { copyOf, draftFrom, emptyDraft, type PartDraft } from './partDraft.ts';
import { readShelf, type ShelfPart, shelf, shelfProblem, takeOffShelf } from './shelf.ts';
import { useEditing } from './useEditing.ts';

type Shown = PartKind | 'all';

/** The part that an address names; '' for one that names none. */
function idIn(hash: string): string {
  try {
    return decodeURIComponent(hash.slice(1));
  } catch {
    return '';
  }
}

export default function LibraryPage() {
  const [shown, setShown] = useState<Shown>('all');
  const { open, said, add, say, resume, edit, close } = useEditing<OpenPart>();
  const parts = shelf.value;
  // an address that names a part opens it once, /parts#its-id; nothing written down since then gives way to it
  const named = useRef(idIn(location.hash));
  const write = (draft: PartDraft): void => {
    if (named.current !== '') history.replaceState(null, '', location.pathname);
    named.current = '';
    edit(openPart(draft));
  };
  useEffect(() => {
    void readShelf();
  }, [partsTurn.value]);
  useEffect(() => {
    const wanted = parts?.find((one) => one.id === named.current);
    if (wanted !== undefined) write(draftFrom(wanted.part, wanted));
    else if (parts !== null && open === null && named.current === '') resume(partAside(parts));
  }, [parts]);
  const listed = (parts ?? []).filter((one) => shown === 'all' || one.part.kind === shown);
  return (
    <div class="stack">
      <LibraryAim station="match">{told(statement('library-is-for'))}</LibraryAim>
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
      {open !== null && <PartEditor key={open.id} part={open} onClose={close} />}
      <section class="card" aria-label="The shelf">
        <fieldset class="part-new">
          <legend>Write down a new</legend>
          <div class="buttons" ref={add}>
            {partKinds.map((kind) => (
              <button key={kind} type="button" class="button" onClick={() => write(emptyDraft(kind))}>
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
        {parts !== null && listed.length === 0 && <p>{told(statement('none-of-this-kind'))}</p>}
        <PartLists listed={listed} onDraft={write} onSaid={say} />
      </section>
      <PartsTransfer shown={listed} kindShown={shown === 'all' ? 'parts' : kindWords[shown].many.toLowerCase()} />
      <TypicalTable onDraft={write} />
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
  const { part } = one;
  return (
    <KeptRow
      kind={part.kind}
      id={one.id}
      name={part.name}
      mark={part.marked && markWords[part.marked]}
      line={specLine(part)}
      onChange={() => onDraft(draftFrom(part, one))}
      onCopy={() => onDraft(copyOf(part))}
      onDeleted={() => {
        takeOffShelf(one.id);
        return told(statement('part-deleted', { name: part.name }));
      }}
      onSaid={onSaid}
    />
  );
}

function TypicalTable({ onDraft }: { onDraft(draft: PartDraft): void }) {
  return (
    <section class="card" aria-label="Typical classes">
      <h3 class="strong">Typical classes</h3>
      <p class="soft small">{told(statement('typical-classes-are'))}</p>
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
