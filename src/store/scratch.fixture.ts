/** For tests: a folder that goes away, and a store with times and ids that can be foretold. */
import { existsSync, mkdtempSync, rmSync, statfsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Held } from './answers.ts';
import type { Origin } from './transaction.ts';

const IN_MEMORY = '/dev/shm';
const ROOM_BYTES = 2 ** 31;

/** Where files lie in memory, if there is room: to wait for a disk after each change makes most of a test's time and proves nothing. */
export function quickPlace(): string {
  if (!existsSync(IN_MEMORY)) return tmpdir();
  const { bavail, bsize } = statfsSync(IN_MEMORY);
  return bavail * bsize > ROOM_BYTES ? IN_MEMORY : tmpdir();
}

export function scratchFolder(place = quickPlace()): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(place, 'platterside-'));
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
