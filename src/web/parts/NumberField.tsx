/** A field whose label and bounds are not declared in core yet: as `FieldEntry`, from single properties. */

import type { Bounds } from '../../core/job/fields/number.ts';
import { FieldEntry } from './FieldEntry.tsx';

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
