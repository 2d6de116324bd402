/** One of a few that each need a line of explanation. */
import { useId } from 'preact/hooks';

export interface ExplainedOption<T extends string> {
  readonly value: T;
  readonly label: string;
  readonly says: string;
}

export interface OptionListProps<T extends string> {
  readonly label: string;
  readonly options: readonly ExplainedOption<T>[];
  readonly value: T;
  onValue(value: T): void;
}

export function OptionList<T extends string>({ label, options, value, onValue }: OptionListProps<T>) {
  const name = useId();
  return (
    <fieldset class="explained">
      <legend>{label}</legend>
      {options.map((option, i) => (
        <label key={option.value}>
          <input
            type="radio"
            name={name}
            value={option.value}
            checked={option.value === value}
            aria-labelledby={`${name}-${i}-title`}
            aria-describedby={`${name}-${i}`}
            onChange={() => onValue(option.value)}
          />
          <span class="title" id={`${name}-${i}-title`}>
            {option.label}
          </span>
          <span class="says" id={`${name}-${i}`}>
            {option.says}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
