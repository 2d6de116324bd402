/** What this browser holds for the server: the leaves of drafts that are still to be sent, over a reload and a dead server. */
import type { LeafChange, LeafPath } from '../core/job/leafPaths.ts';

type Value = LeafChange['is'];

export interface Aside {
  readonly path: LeafPath;
  readonly is?: Value;
  /** values that this window knew the leaf to have; left out in one: nothing */
  readonly seen: readonly { readonly value?: Value }[];
}

const STORED = 'platterside-draft/';

export function keptAside(key: string): readonly Aside[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(STORED + key) ?? '[]');
    return Array.isArray(kept) ? kept.filter((one) => Array.isArray(one?.path) && Array.isArray(one?.seen)) : [];
  } catch {
    return [];
  }
}

export function keepAside(key: string, asides: readonly Aside[]): void {
  try {
    if (asides.length === 0) localStorage.removeItem(STORED + key);
    else localStorage.setItem(STORED + key, JSON.stringify(asides));
  } catch {
    // a browser that keeps nothing still holds the draft in memory
  }
}

/** Keys of drafts that this browser holds for the server, of one kind. */
export function keysAside(prefix: string): readonly string[] {
  try {
    return Object.keys(localStorage)
      .filter((name) => name.startsWith(STORED + prefix))
      .map((name) => name.slice(STORED.length));
  } catch {
    return [];
  }
}
