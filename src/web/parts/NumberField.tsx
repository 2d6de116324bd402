/**
 * One number typed by a person. The text is kept exactly as typed, comma or point; what cannot be used is said beside
 * the field, once it has been left or is plainly wrong. Read the value with `typedValue(text, bounds)`.
 */
import { useId, useState } from 'preact/hooks';
import { type Bounds, readNumber } from './number.ts';

export interface NumberFieldProps extends Bounds {
  readonly label: string;
  /** shown beside the entry and read out with the label */
  readonly unit: string;
  readonly text: string | undefined;
  onText(text: string): void;
  readonly hint?: string;
}

export function NumberField({ label, unit, text = '', onText, hint, min, max }: NumberFieldProps) {
  const id = useId();
  const [left, setLeft] = useState(false);
  const read = readNumber(text, { min, max, unit });
  const wrong = 'wrong' in read && (left || text.trim().length > 6) ? read.wrong : null;
  const said = [hint && `${id}-hint`, wrong && `${id}-wrong`].filter(Boolean).join(' ');
  return (
    <div class="field number">
      <label for={id}>{label}</label>
      <span class="entry">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          spellcheck={false}
          value={text}
          aria-label={unit === '' ? undefined : `${label}, ${unit}`}
          aria-invalid={wrong !== null}
          aria-describedby={said === '' ? undefined : said}
          onInput={(event) => onText(event.currentTarget.value)}
          onFocus={() => setLeft(false)}
          onBlur={() => setLeft(true)}
        />
        {unit !== '' && <span aria-hidden="true">{unit}</span>}
      </span>
      {hint !== undefined && (
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
