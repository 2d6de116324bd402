/** One part being written down: every field of its kind, units beside them, nothing asked that is not known. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { fieldsOf, type PartField } from '../../core/job/partFields.ts';
import { kindWords, markWords, optionText } from '../../core/job/partWords.ts';
import { Select } from '../parts/Choice.tsx';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import { TextField } from '../parts/TextField.tsx';
import type { OpenPart } from './openPart.ts';

export interface PartEditorProps {
  readonly part: OpenPart;
  /** closed; `said` is what was done, for the person to read */
  onClose(said: string): void;
}

export function PartEditor({ part, onClose }: PartEditorProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [tried, setTried] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    heading.current?.scrollIntoView({ block: 'nearest' });
  }, [part]);
  const { one } = kindWords[part.kind];
  const draft = part.typed.value;
  const set = part.set;
  const read = part.read.value;
  const faults = 'faults' in read ? read.faults : [];
  const save = async (event: Event): Promise<void> => {
    event.preventDefault();
    setTried(true);
    setRefused(null);
    if (!('part' in read)) return;
    setBusy(true);
    try {
      if (await part.keep()) {
        part.leave();
        onClose(`${read.part.name} is kept.`);
      } else setRefused('Changed in another window meanwhile: choose which value to keep, then save again.');
    } catch (error) {
      setRefused(`Not saved: ${error instanceof Error ? error.message : String(error)} What is typed stays here.`);
    } finally {
      setBusy(false);
    }
  };
  return (
    <form class="card part-editor" onSubmit={(event) => void save(event)} aria-labelledby="part-editor-name">
      <h3 class="strong" id="part-editor-name" tabIndex={-1} ref={heading}>
        {part.isNew ? `New ${one}` : `Change this ${one}`}
      </h3>
      <p class="soft small">
        Fill in what is known; what is left empty withholds only what needs it. A figure may be typed with its unit, as
        it is printed on the data sheet.
        {draft.marked !== undefined && ` This one is marked “${markWords[draft.marked]}”; a copy of it is your own.`}
      </p>
      <div class="fields">
        <TextField label="Name" text={draft.texts.name} onText={(text) => set('name', text)} maxLength={200} />
        {Object.entries(fieldsOf(part.kind)).map(([name, field]) => (
          <OneField
            key={name}
            field={field}
            text={draft.texts[name] ?? ''}
            onText={(text) => set(name, text)}
            tried={tried}
          />
        ))}
        <TextField lines label="Note" text={draft.texts.note} onText={(text) => set('note', text)} maxLength={20_000} />
      </div>
      {tried && faults.length > 0 && (
        <div class="notice bad" role="alert">
          <p>
            <b>Not kept yet.</b>
          </p>
          {faults.map(({ field, label, why }) => (
            <p key={field}>
              {label === '' ? '' : `${label}: `}
              {why}
            </p>
          ))}
        </div>
      )}
      {refused !== null && (
        <div class="notice bad" role="alert">
          <p>{refused}</p>
        </div>
      )}
      <div class="buttons">
        <button type="submit" class="button main" disabled={busy}>
          Keep it
        </button>
        <button
          type="button"
          class="button"
          onClick={() => {
            part.leave();
            onClose('');
          }}
        >
          {part.isNew ? 'Leave it' : 'Leave it as it was'}
        </button>
      </div>
    </form>
  );
}

interface OneFieldProps {
  readonly field: PartField;
  readonly text: string;
  onText(text: string): void;
  readonly tried: boolean;
}

function OneField({ field, text, onText, tried }: OneFieldProps) {
  if (field.type === 'number') {
    return <FieldEntry field={field} text={text} onText={onText} wrongAtOnce={tried} />;
  }
  if (field.type === 'text') {
    return <TextField label={field.label} hint={field.help} text={text} onText={onText} maxLength={2000} />;
  }
  return (
    <Select
      label={field.label}
      options={[
        { value: '', label: 'not said' },
        ...field.options.map((option) => ({ value: option, label: optionText(option) })),
      ]}
      value={text}
      onValue={onText}
    />
  );
}
