/** A force as it is typed: bare in the unit chosen at the station, or with its own; the other unit stands below. */
import { useId, useState } from 'preact/hooks';
import { type ForceBounds, type ForceUnit, forceWords, readForce } from './force.ts';

export interface ForceFieldProps {
  readonly label: string;
  readonly unit: ForceUnit;
  readonly bounds: ForceBounds;
  readonly text: string | undefined;
  onText(text: string): void;
  /** shown while nothing that can be used is typed */
  readonly hint?: string;
}

export function ForceField({ label, unit, bounds, text = '', onText, hint }: ForceFieldProps) {
  const id = useId();
  const [left, setLeft] = useState(true);
  const read = readForce(text, unit, bounds);
  const wrong = 'wrong' in read && (left || text.trim().length > 8) ? read.wrong : null;
  const under = 'value' in read ? forceWords(read.value) : hint;
  const said = [under !== undefined && `${id}-hint`, wrong !== null && `${id}-wrong`].filter(Boolean).join(' ');
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
          maxLength={40}
          aria-label={`${label}, ${unit}`}
          aria-invalid={wrong !== null}
          aria-describedby={said === '' ? undefined : said}
          onInput={(event) => onText(event.currentTarget.value)}
          onFocus={() => setLeft(false)}
          onBlur={() => setLeft(true)}
        />
        <span aria-hidden="true">{unit}</span>
      </span>
      {under !== undefined && (
        <span class="hint" id={`${id}-hint`}>
          {under}
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
