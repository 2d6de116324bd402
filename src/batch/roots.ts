/**
 * Named roots: the store knows a recording as a path below a name, and each machine says where that name lies on it.
 * Recordings that are added without one are known by the name of their machine, and other machines pass over them.
 */
import { hostname } from 'node:os';
import { isAbsolute, join, relative, resolve, sep } from 'node:path';

export interface Root {
  readonly name: string;
  /** absolute */
  readonly folder: string;
}

/** This machine's own, where nothing else was named: all of its paths. */
export const ownRoot = (): Root => ({ name: `machine ${hostname()}`, folder: resolve('/') });

/** @param text `NAME=FOLDER` @returns null where it is none */
export function rootOf(text: string): Root | null {
  const [, name, folder] = /^([A-Za-z0-9][A-Za-z0-9_.-]{0,59})=(.+)$/.exec(text) ?? [];
  return name === undefined ? null : { name, folder: resolve(folder) };
}

/** The root below which a path lies, the deepest of several, and the path below it with slashes. */
export function placeOf(path: string, roots: readonly Root[]): { readonly root: string; readonly path: string } | null {
  const full = resolve(path);
  const below = roots
    .map(({ name, folder }) => ({ root: name, path: relative(folder, full), folder }))
    .filter((one) => one.path !== '' && !one.path.startsWith('..') && !isAbsolute(one.path))
    .sort((a, b) => b.folder.length - a.folder.length);
  return below.length === 0 ? null : { root: below[0].root, path: below[0].path.split(sep).join('/') };
}

/** Where it lies here; null where this machine lacks its root. A path that leads out of its root is none. */
export function pathHere(root: string, path: string, roots: readonly Root[]): string | null {
  const there = roots.find(({ name }) => name === root);
  if (there === undefined || path.split('/').includes('..')) return null;
  return join(there.folder, path);
}
