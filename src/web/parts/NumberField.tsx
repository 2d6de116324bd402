/** One plain number typed by a person, comma or point. Read the value with `typedValue(text, bounds)`. */
import { EntryField } from './EntryField.tsx';
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
  const read = readNumber(text, { min, max, unit });
  return (
    <EntryField
      label={label}
      unit={unit}
      text={text}
      onText={onText}
      hint={hint}
      wrong={'wrong' in read ? read.wrong : null}
      sayAtOnce={text.trim().length > 6}
      startsLeft={false}
      keyboard={min !== undefined && min >= 0 ? 'decimal' : 'text'}
    />
  );
}
