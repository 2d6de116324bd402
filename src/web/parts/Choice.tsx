/** One of a few, all in view. For more than six use `Select`. */
import { useId } from 'preact/hooks';

export interface Option<T extends string> {
  readonly value: T;
  readonly label: string;
}

export interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly options: readonly Option<T>[];
  readonly value: T;
  onValue(value: T): void;
  readonly disabled?: boolean;
}

export function Choice<T extends string>({ label, options, value, onValue, disabled }: ChoiceProps<T>) {
  const name = useId();
  return (
    <fieldset class="choice" disabled={disabled}>
      <legend>{label}</legend>
      <div class="options">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onValue(option.value)}
            />
            {option.label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export function Select<T extends string>({ label, options, value, onValue, disabled }: ChoiceProps<T>) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} disabled={disabled} onChange={(event) => onValue(event.currentTarget.value as T)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}

export function Check({
  label,
  checked,
  onChecked,
}: {
  label: string;
  checked: boolean;
  onChecked(on: boolean): void;
}) {
  return (
    <label class="check">
      <input type="checkbox" checked={checked} onChange={(event) => onChecked(event.currentTarget.checked)} />
      <span>{label}</span>
    </label>
  );
}
