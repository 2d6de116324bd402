/** One quantity typed by a person: like a number field, and takes its unit too (`1.8 g`, `47k`). Kept as it was typed. */
import { unitSign } from '../../core/words/figure.ts';
import { EntryField } from '../parts/EntryField.tsx';
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
  const read = readQuantity(text, { unit, min, max });
  return (
    <EntryField
      label={label}
      unit={unit}
      unitSign={unitSign(unit)}
      text={text}
      onText={onText}
      hint={hint}
      wrong={'wrong' in read ? read.wrong : null}
      sayAtOnce={wrongAtOnce || text.trim().length > 8}
      keyboard="text"
      maxLength={60}
    />
  );
}
