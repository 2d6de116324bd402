/** One typed field → its number, or the sentence that says why it cannot be used. */
import { type Bounds, readNumber } from '../../fields/number.ts';

/** A field that is empty or cannot be used stands in the way. `missing`: nothing wrong yet, only not there. */
export class Unusable extends Error {
  readonly missing: boolean;
  constructor(sentence: string, missing: boolean) {
    super(sentence);
    this.missing = missing;
  }
}

/** @throws Unusable with label, what was typed and the bounds */
export function optionalField(label: string, text: string | undefined, bounds: Bounds): number | undefined {
  const read = readNumber(text ?? '', bounds);
  if ('empty' in read) return undefined;
  if ('wrong' in read) {
    throw new Unusable(`${label}: ${read.wrong}`, false);
  }
  return read.value;
}

/** @throws Unusable with label, what was typed and the bounds; `missing` where the field is empty */
export function neededField(label: string, text: string | undefined, bounds: Bounds): number {
  const value = optionalField(label, text, bounds);
  if (value === undefined) throw new Unusable(label, true);
  return value;
}
