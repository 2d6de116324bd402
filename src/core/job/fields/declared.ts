/** The fields of a station by the path that they are kept under, as a person calls them. */
import type { LeafPath } from '../leafPaths.ts';

/** A field: declared with its unit and bounds, as one of a few, or a mere name of what is ticked, listed or told in words. */
export interface Named {
  readonly label: string;
  readonly options?: Readonly<Record<string, string>>;
}

/** Under `*` stand fields whose key is not known beforehand. */
export interface Declared {
  readonly [key: string]: Named | Declared | ((key: string) => Named | Declared);
}

const isNamed = (one: Named | Declared): one is Named => typeof (one as Named).label === 'string';

/** The field at a path, or the one that holds it; undefined where none is declared. */
export function fieldAt(declared: Declared, path: LeafPath): Named | undefined {
  let at: Named | Declared = declared;
  for (const key of path) {
    if (isNamed(at)) return at;
    const inner: Declared[string] | undefined = Object.hasOwn(at, key) ? at[key] : at['*'];
    if (inner === undefined) return undefined;
    at = typeof inner === 'function' ? inner(key) : inner;
  }
  return isNamed(at) ? at : undefined;
}
