/** A field whose label and bounds are not declared in core yet: as `FieldEntry`, from single properties. */
import { FieldEntry } from './FieldEntry.tsx';
import type { Bounds } from './number.ts';

export interface NumberFieldProps extends Bounds {
  readonly label: string;
  readonly unit: string;
  readonly text: string | undefined;
  onText(text: string): void;
  readonly hint?: string;
}

export function NumberField({ label, unit, text, onText, hint, min, max }: NumberFieldProps) {
  const field = { label, unit, min: min ?? Number.NEGATIVE_INFINITY, max: max ?? Number.POSITIVE_INFINITY };
  return <FieldEntry field={field} text={text} onText={onText} hint={hint} />;
}
