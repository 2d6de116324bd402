/** Words typed by a person: one line, or as many as they like. */
import { useId } from 'preact/hooks';

export interface TextFieldProps {
  readonly label: string;
  readonly text: string | undefined;
  onText(text: string): void;
  readonly hint?: string;
  readonly lines?: boolean;
  readonly maxLength?: number;
}

export function TextField({ label, text = '', onText, hint, lines = false, maxLength }: TextFieldProps) {
  const id = useId();
  const described = hint === undefined ? undefined : `${id}-hint`;
  return (
    <div class={lines ? 'field wide' : 'field'}>
      <label for={id}>{label}</label>
      {lines ? (
        <textarea
          id={id}
          value={text}
          maxLength={maxLength}
          aria-describedby={described}
          onInput={(event) => onText(event.currentTarget.value)}
        />
      ) : (
        <input
          id={id}
          type="text"
          autoComplete="off"
          value={text}
          maxLength={maxLength}
          aria-describedby={described}
          onInput={(event) => onText(event.currentTarget.value)}
        />
      )}
      {hint !== undefined && (
        <span class="hint" id={described}>
          {hint}
        </span>
      )}
    </div>
  );
}
