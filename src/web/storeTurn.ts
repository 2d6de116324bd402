/** Counts the changes of the store that this page was told of: lists over many jobs, parts and the shop are asked for again. */
import { signal } from '@preact/signals';

/** Several changes are asked about once, ms. */
const PAUSE_MS = 400;

export const storeTurn = signal(0);

let waiting = false;

export function storeStirred(): void {
  if (waiting) return;
  waiting = true;
  setTimeout(() => {
    waiting = false;
    storeTurn.value += 1;
  }, PAUSE_MS);
}
