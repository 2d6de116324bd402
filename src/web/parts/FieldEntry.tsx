/**
 * One declared field (core/job/fields): label, what is typed, its unit, what is meant, what is used while nothing is typed
 * and where that comes from, and what is wrong with it. The text is kept exactly as typed.
 */

import { useId, useState } from 'preact/hooks';
import type { Field } from '../../core/job/fields/field.ts';
import { bareText, quantityText, readQuantity } from '../../core/job/fields/quantity.ts';
import { capital } from '../../core/words/capital.ts';
import { unitSign } from '../../core/words/figure.ts';
import { say } from '../../core/words/statement.ts';

/** What stands in a field's place while nothing is typed there. */
export interface Fallback {
  /** in the field's unit */
  readonly value: number;
  /** "from Match", "typed at Weigh", "common practice" */
  readonly from: string;
}

export interface FieldEntryProps {
  readonly field: Field;
  readonly text: string | undefined;
  onText(text: string): void;
  readonly fallback?: Fallback | null;
  /** said instead of the declared help */
  readonly hint?: string;
  /** unit of a number typed without one, where that is chosen and is not the field's own */
  readonly bareUnit?: string;
  /** a figure of the field in words, where two units stand side by side */
  readonly words?: (value: number) => string;
  /** wrong even before the field is left */
  readonly wrongAtOnce?: boolean;
}

/** Units that people type in more than one size: their fields need letters on a telephone. */
const manySizes: readonly string[] = ['mN', 'Ω', 'pF', 'mH', 'mV', 'V', 'µm/mN'];

export function FieldEntry(props: FieldEntryProps) {
  const { field, text = '', onText, fallback = null, bareUnit, wrongAtOnce = false } = props;
  const id = useId();
  const [left, setLeft] = useState(true);
  const unit = bareUnit ?? field.unit;
  const read = readQuantity(text, field, bareUnit);
  const wrong = 'wrong' in read && (left || wrongAtOnce || text.trim().length > 8) ? read.wrong : null;
  const hint = hintOf(props, 'value' in read ? read.value : null);
  const said = [hint !== '' && `${id}-hint`, wrong !== null && `${id}-wrong`].filter(Boolean).join(' ');
  return (
    <div class="field number">
      <label for={id}>{field.label}</label>
      <span class="entry">
        <input
          id={id}
          type="text"
          inputMode={field.min >= 0 && !manySizes.includes(field.unit) ? 'decimal' : 'text'}
          autoComplete="off"
          spellcheck={false}
          value={text}
          maxLength={60}
          placeholder={fallback === null ? undefined : bareText(fallback.value, field.unit, bareUnit)}
          aria-label={unit === '' ? undefined : `${field.label}, ${unitSign(unit)}`}
          aria-invalid={wrong !== null}
          aria-describedby={said === '' ? undefined : said}
          onInput={(event) => onText(event.currentTarget.value)}
          onFocus={() => setLeft(false)}
          onBlur={() => setLeft(true)}
        />
        {unit !== '' && <span aria-hidden="true">{unitSign(unit)}</span>}
      </span>
      {hint !== '' && (
        <span class="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {wrong !== null && (
        <span class="wrong" id={`${id}-wrong`} role="alert">
          {say(wrong)}
        </span>
      )}
    </div>
  );
}

/** Help first, then where the figure comes from; of a typed force the other unit instead. */
function hintOf({ field, hint, fallback = null, words }: FieldEntryProps, value: number | null): string {
  const show = words ?? ((one: number) => quantityText(one, field.unit));
  if (words !== undefined && value !== null) return words(value);
  const source = fallback === null ? '' : `${capital(fallback.from)}: ${show(fallback.value)}`;
  return [hint ?? field.help ?? '', source].filter((one) => one !== '').join('. ');
}
