/** For tests: a folder that goes away, and a store with times and ids that can be foretold. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Held } from './answers.ts';
import type { Origin } from './transaction.ts';

export function scratchFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'platterside-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

/** A minute passes with every question; ids count up. */
export function countingOrigin(): Origin {
  let minutes = 0;
  let ids = 0;
  return {
    now: () => new Date(Date.UTC(2026, 2, 4, 9, minutes++)).toISOString(),
    newId: () => `id-${++ids}`,
  };
}

export function given<T>(found: Held<T>): T {
  if (found.outcome !== 'found') throw new Error(found.why);
  return found.value;
}
