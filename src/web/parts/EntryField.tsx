/**
 * The entry that every field for a figure is made of: label, what is typed, its unit, a hint, and what is wrong with it.
 * The text is kept exactly as typed; what it means is the business of the field that uses this one.
 */
import { useId, useState } from 'preact/hooks';

export interface EntryFieldProps {
  readonly label: string;
  /** read out with the label; `''` for a plain number */
  readonly unit: string;
  /** as it stands beside the entry, where that is another sign than `unit` */
  readonly unitSign?: string;
  readonly text: string | undefined;
  onText(text: string): void;
  readonly hint?: string;
  /** what is wrong with the text; said once the field has been left, or at once */
  readonly wrong: string | null;
  readonly sayAtOnce: boolean;
  /** a text that stood there before the field was touched counts as left */
  readonly startsLeft?: boolean;
  /** `decimal` only where no minus and no unit is ever typed: the small keyboard of a telephone has neither */
  readonly keyboard: 'decimal' | 'text';
  readonly maxLength?: number;
}

export function EntryField(props: EntryFieldProps) {
  const { label, unit, unitSign = unit, text = '', onText, hint = '', sayAtOnce, keyboard, maxLength } = props;
  const id = useId();
  const [left, setLeft] = useState(props.startsLeft ?? true);
  const wrong = left || sayAtOnce ? props.wrong : null;
  const said = [hint !== '' && `${id}-hint`, wrong !== null && `${id}-wrong`].filter(Boolean).join(' ');
  return (
    <div class="field number">
      <label for={id}>{label}</label>
      <span class="entry">
        <input
          id={id}
          type="text"
          inputMode={keyboard}
          autoComplete="off"
          spellcheck={false}
          value={text}
          maxLength={maxLength}
          aria-label={unit === '' ? undefined : `${label}, ${unit}`}
          aria-invalid={wrong !== null}
          aria-describedby={said === '' ? undefined : said}
          onInput={(event) => onText(event.currentTarget.value)}
          onFocus={() => setLeft(false)}
          onBlur={() => setLeft(true)}
        />
        {unit !== '' && <span aria-hidden="true">{unitSign}</span>}
      </span>
      {hint !== '' && (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {wrong !== null && (
        <span class="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      )}
    </div>
  );
}
