/** One typed field → its number, or the sentence that says why it cannot be used. */
import type { Field } from '../../fields/field.ts';
import { readQuantity } from '../../fields/quantity.ts';

/** A field that is empty or cannot be used stands in the way. `missing`: nothing wrong yet, only not there. */
export class Unusable extends Error {
  readonly missing: boolean;
  constructor(sentence: string, missing: boolean) {
    super(sentence);
    this.missing = missing;
  }
}

/** @throws Unusable with label, what was typed and the bounds */
export function optionalField(field: Field, text: string | undefined): number | undefined {
  const read = readQuantity(text, field);
  if ('empty' in read) return undefined;
  if ('wrong' in read) throw new Unusable(`${field.label}: ${read.wrong}`, false);
  return read.value;
}

/** @throws Unusable with label, what was typed and the bounds; `missing` where the field is empty */
export function neededField(field: Field, text: string | undefined): number {
  const value = optionalField(field, text);
  if (value === undefined) throw new Unusable(field.label, true);
  return value;
}
