/**
 * Changes of a kept document by leaf path: which value, what stood there, what stands there now. Two windows that change
 * different leaves both keep theirs; the same leaf changed to two values is a conflict that a person decides.
 *
 * A leaf is anything but an object with keys: text, number, null, and a list, which is always whole. A key that is not
 * there has no `was`, or no `is` when it goes.
 */

import { z } from 'zod';
import { isObject, type Json } from './json.ts';
import { sameJson } from './sameJson.ts';

type Document = { readonly [key: string]: Json };

export type LeafPath = readonly string[];

const step = z
  .string()
  .min(1)
  .max(100)
  .refine((key) => !['__proto__', 'constructor', 'prototype'].includes(key), { error: 'not a name of a field' });

export interface LeafChange {
  readonly path: LeafPath;
  /** what stood there when it was changed; left out: nothing */
  readonly was?: Json | undefined;
  /** what stands there now; left out: nothing any more */
  readonly is?: Json | undefined;
}

/** Changes as they come from outside. */
export const leafChangesSchema: z.ZodType<readonly LeafChange[], readonly LeafChange[]> = z
  .array(
    z.strictObject({
      path: z.array(step).min(1).max(12),
      was: z.json().optional(),
      is: z.json().optional(),
    }),
  )
  .max(5000);

/** The same leaf changed to two values. */
export interface LeafConflict {
  readonly path: LeafPath;
  /** what was sent; left out: it was to go */
  readonly yours?: Json | undefined;
  /** what stands there; left out: nothing */
  readonly theirs?: Json | undefined;
}

/** What stands at a path; undefined where nothing does. */
export function atPath(document: unknown, path: LeafPath): Json | undefined {
  let value: unknown = document;
  for (const key of path) {
    if (!isObject(value) || !Object.hasOwn(value, key)) return undefined;
    value = value[key];
  }
  return value as Json;
}

/**
 * A copy with `value` at `path`; `undefined` takes the key away, and objects that are emptied by it with it. Objects on
 * the way are made; what stands on the way and is none gives way to one.
 */
export function withPath(document: Document, [key, ...rest]: LeafPath, value: Json | undefined): Document {
  const { [key]: inner, ...others } = document;
  if (rest.length === 0) return value === undefined ? others : { ...document, [key]: value };
  if (value === undefined && !isObject(inner)) return document;
  const below = withPath(isObject(inner) ? inner : {}, rest, value);
  return value === undefined && Object.keys(below).length === 0 ? others : { ...document, [key]: below };
}

const matches = (path: LeafPath, pattern: LeafPath): boolean =>
  path.length === pattern.length && pattern.every((name, i) => name === '*' || name === path[i]);

/**
 * The leaves in which two documents differ. An object without keys is the same as none.
 *
 * @param wholes paths at which an object is one leaf; `*` stands for any one key
 */
export function leafChanges(
  was: unknown,
  is: unknown,
  wholes: readonly LeafPath[] = [],
  path: LeafPath = [],
): readonly LeafChange[] {
  const [before, after] = [isObject(was) ? was : undefined, isObject(is) ? is : undefined];
  const keys = [...new Set([...Object.keys(before ?? {}), ...Object.keys(after ?? {})])];
  const goesIn =
    (before !== undefined || was === undefined) &&
    (after !== undefined || is === undefined) &&
    !wholes.some((pattern) => matches(path, pattern));
  if (goesIn) return keys.flatMap((key) => leafChanges(before?.[key], after?.[key], wholes, [...path, key]));
  if (sameJson(was, is)) return [];
  return [
    {
      path,
      ...(was === undefined ? {} : { was: was as Json }),
      ...(is === undefined ? {} : { is: is as Json }),
    },
  ];
}

/** Lists are joined where both changes can stand: rows put at the end, and marks set or taken away. */
export function joinedList(was: Json | undefined, is: Json | undefined, now: Json | undefined): Json | undefined {
  const [before, mine, theirs] = [was ?? [], is, now];
  if (!Array.isArray(before) || !Array.isArray(mine) || !Array.isArray(theirs)) return undefined;
  const startsWith = (list: readonly Json[], head: readonly Json[]): boolean =>
    head.length <= list.length && head.every((row, i) => sameJson(row, list[i]));
  if (startsWith(theirs, mine) && startsWith(mine, before)) return theirs;
  if (startsWith(mine, before) && startsWith(theirs, before)) return [...theirs, ...mine.slice(before.length)];
  const marks = [before, mine, theirs].every((list) => list.every((row) => typeof row === 'string'));
  if (!marks) return undefined;
  const gone = before.filter((mark) => !mine.includes(mark));
  const fresh = mine.filter((mark) => !before.includes(mark) && !theirs.includes(mark));
  return [...theirs.filter((mark) => !gone.includes(mark)), ...fresh];
}

export type Applied =
  | { readonly outcome: 'applied'; readonly document: Document }
  /** nothing of the changes was applied */
  | { readonly outcome: 'conflict'; readonly conflicts: readonly LeafConflict[] };

/**
 * A document after changes, all or none. A change that stands there already is none, so a repeated request is harmless.
 */
export function applyLeaves(document: Document, changes: readonly LeafChange[]): Applied {
  let after = document;
  const conflicts: LeafConflict[] = [];
  for (const { path, was, is } of changes) {
    const now = atPath(after, path);
    if (sameJson(now, is)) continue;
    const next = sameJson(now, was) ? is : joinedList(was, is, now);
    if (next === undefined && !(sameJson(now, was) && is === undefined)) {
      conflicts.push({
        path,
        ...(is === undefined ? {} : { yours: is }),
        ...(now === undefined ? {} : { theirs: now }),
      });
    } else after = withPath(after, path, next);
  }
  return conflicts.length > 0 ? { outcome: 'conflict', conflicts } : { outcome: 'applied', document: after };
}

/** A path as words where no label is known: "gauge, second reading". */
export const leafWords = (path: LeafPath): string =>
  path
    .map((key) => key.replace(/(?:Mm|Mn|Deg|G|Db)$/, '').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`))
    .join(', ');
