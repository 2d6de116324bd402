/** One quantity typed by a person: like a number field, and takes its unit too (`1.8 g`, `47k`). Kept as it was typed. */
import { useId, useState } from 'preact/hooks';
import { unitSign } from '../../core/job/shownFigure.ts';
import { type QuantityBounds, readQuantity } from './quantity.ts';

export interface QuantityFieldProps extends QuantityBounds {
  readonly label: string;
  readonly text: string | undefined;
  onText(text: string): void;
  /** where the figure comes from when nothing is typed, or what it is quoted at */
  readonly hint?: string;
  /** said even before the field is left */
  readonly wrongAtOnce?: boolean;
}

export function QuantityField(props: QuantityFieldProps) {
  const { label, unit, min, max, text = '', onText, hint, wrongAtOnce = false } = props;
  const id = useId();
  const [left, setLeft] = useState(true);
  const read = readQuantity(text, { unit, min, max });
  const wrong = 'wrong' in read && (left || wrongAtOnce || text.trim().length > 8) ? read.wrong : null;
  const said = [hint && `${id}-hint`, wrong && `${id}-wrong`].filter(Boolean).join(' ');
  return (
    <div class="field number">
      <label for={id}>{label}</label>
      <span class="entry">
        <input
          id={id}
          type="text"
          inputMode="text"
          autoComplete="off"
          spellcheck={false}
          value={text}
          maxLength={60}
          aria-label={unit === '' ? undefined : `${label}, ${unit}`}
          aria-invalid={wrong !== null}
          aria-describedby={said === '' ? undefined : said}
          onInput={(event) => onText(event.currentTarget.value)}
          onFocus={() => setLeft(false)}
          onBlur={() => setLeft(true)}
        />
        {unit !== '' && <span aria-hidden="true">{unitSign(unit)}</span>}
      </span>
      {hint !== undefined && hint !== '' && (
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
