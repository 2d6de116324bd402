/** Words typed by a person, by the field as it is declared: one line, or as many as they like. */
import { useId } from 'preact/hooks';
import type { Wording } from '../../core/job/fields/wording.ts';

export interface TextFieldProps {
  readonly of: Wording;
  readonly text: string | undefined;
  onText(text: string): void;
  /** said instead of the declared help */
  readonly hint?: string;
}

export function TextField({ of, text = '', onText, hint = of.help }: TextFieldProps) {
  const { label, most, lines = false } = of;
  const id = useId();
  const entry = {
    id,
    value: text,
    maxLength: most,
    'aria-describedby': hint === undefined ? undefined : `${id}-hint`,
    onInput: (event: { currentTarget: { value: string } }) => onText(event.currentTarget.value),
  };
  return (
    <div class={lines ? 'field wide' : 'field'}>
      <label for={id}>{label}</label>
      {lines ? <textarea {...entry} /> : <input type="text" autoComplete="off" {...entry} />}
      {hint !== undefined && (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
    </div>
  );
}
