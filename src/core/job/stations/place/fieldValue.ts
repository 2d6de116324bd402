/** One typed field → its number, or why it cannot be used. */
import { type Statement, say, statement } from '../../../words/statement.ts';
import type { Field } from '../../fields/field.ts';
import { readQuantity } from '../../fields/quantity.ts';

/** A field that is empty or cannot be used stands in the way. `missing`: nothing wrong yet, only not there. */
export class Unusable extends Error {
  readonly why: Statement;
  readonly missing: boolean;
  constructor(why: Statement, missing: boolean) {
    super(say(why));
    this.why = why;
    this.missing = missing;
  }
}

export const missingField = (label: string): Unusable =>
  new Unusable(statement('still-to-type', { what: label.charAt(0).toLowerCase() + label.slice(1) }), true);

/** @throws Unusable with label, what was typed and the bounds */
export function optionalField(field: Field, text: string | undefined): number | undefined {
  const read = readQuantity(text, field);
  if ('empty' in read) return undefined;
  if ('wrong' in read) throw new Unusable(statement('field-wrong', { label: field.label, why: read.wrong }), false);
  return read.value;
}

/** @throws Unusable with label, what was typed and the bounds; `missing` where the field is empty */
export function neededField(field: Field, text: string | undefined): number {
  const value = optionalField(field, text);
  if (value === undefined) throw missingField(field.label);
  return value;
}
