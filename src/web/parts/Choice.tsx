/** One of a few, all in view. For more than six use `Select`. */
import type { ComponentChildren } from 'preact';
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

export interface SelectProps<T extends string> extends Omit<ChoiceProps<T>, 'label' | 'options'> {
  readonly label: ComponentChildren;
  /** what is in a group stands under its name; `fixed` is shown and cannot be chosen */
  readonly options: readonly (Option<T> & { readonly group?: string; readonly fixed?: boolean })[];
  /** for what leads to it from elsewhere on the page */
  readonly id?: string;
  /** of the text that tells more of it, in `children` */
  readonly about?: string;
  readonly look?: string;
  readonly children?: ComponentChildren;
}

export function Select<T extends string>(props: SelectProps<T>) {
  const { label, options, value, onValue, disabled, about, look = '', children } = props;
  const own = useId();
  const id = props.id ?? own;
  const groups = [...new Set(options.map(({ group }) => group))];
  const optionsIn = (group: string | undefined) =>
    options
      .filter((option) => option.group === group)
      .map((option) => (
        <option key={option.value} value={option.value} disabled={option.fixed}>
          {option.label}
        </option>
      ));
  return (
    <div class={`field ${look}`.trim()}>
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        disabled={disabled}
        aria-describedby={about}
        onChange={(event) => onValue(event.currentTarget.value as T)}
      >
        {groups.map((group) =>
          group === undefined ? (
            optionsIn(group)
          ) : (
            <optgroup key={group} label={group}>
              {optionsIn(group)}
            </optgroup>
          ),
        )}
      </select>
      {children}
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
