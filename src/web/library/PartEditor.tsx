/** One part being written down: every field of its kind, units beside them, nothing asked that is not known. */
import { fieldsOf, type PartField, partWordings } from '../../core/job/partFields.ts';
import { kindWords, markWords, optionText } from '../../core/job/partWords.ts';
import { sayAll, statement } from '../../core/words/statement.ts';
import { Select } from '../parts/Choice.tsx';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import { TextField } from '../parts/TextField.tsx';
import { EditorFrame } from './EditorFrame.tsx';
import type { OpenPart } from './openPart.ts';
import { ResponseEntry } from './ResponseEntry.tsx';

export interface PartEditorProps {
  readonly part: OpenPart;
  /** closed; `said` is what was done, for the person to read */
  onClose(said: string): void;
}

export function PartEditor({ part, onClose }: PartEditorProps) {
  const { one } = kindWords[part.kind];
  const { marked, texts } = part.typed.value;
  const { set } = part;
  const read = part.read.value;
  const hint = [
    statement('part-fill-in'),
    ...(marked === undefined ? [] : [statement('part-is-marked', { mark: markWords[marked] })]),
  ];
  return (
    <EditorFrame
      of={part}
      heading={part.isNew ? `New ${one}` : `Change this ${one}`}
      hint={sayAll(hint)}
      name={'part' in read ? read.part.name : undefined}
      faults={'faults' in read ? read.faults : []}
      onClose={onClose}
    >
      {(tried) => (
        <div class="fields">
          <TextField of={partWordings.name} text={texts.name} onText={(text) => set('name', text)} />
          {Object.entries(fieldsOf(part.kind)).map(([name, field]) => (
            <OneField
              key={name}
              field={field}
              text={texts[name] ?? ''}
              onText={(text) => set(name, text)}
              tried={tried}
            />
          ))}
          <TextField of={partWordings.note} text={texts.note} onText={(text) => set('note', text)} />
        </div>
      )}
    </EditorFrame>
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
  if (field.type === 'response') return <ResponseEntry field={field} csv={text} onCsv={onText} />;
  if (field.type === 'text') {
    return <TextField of={field} text={text} onText={onText} />;
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
