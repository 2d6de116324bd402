/** Counts the changes of the store that this page was told of: lists over many jobs, parts and the shop are asked for again. */
import { signal } from '@preact/signals';

/** Several changes are asked about once, ms. */
const PAUSE_MS = 400;

export const storeTurn = signal(0);
/** counts those of parts and record files alone: what is typed in jobs is told far more often */
export const partsTurn = signal(0);

let waiting = false;

let parts: string | null = null;

/** @param stamp of the library, another one after every change of it */
export function partsStirred(stamp: string): void {
  if (parts !== stamp) partsTurn.value += 1;
  parts = stamp;
}

export function storeStirred(): void {
  if (waiting) return;
  waiting = true;
  setTimeout(() => {
    waiting = false;
    storeTurn.value += 1;
  }, PAUSE_MS);
}
