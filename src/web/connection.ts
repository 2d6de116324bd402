/**
 * Writes to the server, one after the other, in the order they were made. When the server is away they wait here and are
 * tried again; the page goes on meanwhile.
 */
import { computed, signal } from '@preact/signals';
import { ServerAway } from './api.ts';

type Write = () => Promise<void>;

const LONGEST_WAIT_MS = 10_000;

const queue: Write[] = [];
const waiting = signal(0);
/** the server did not answer the last time it was asked */
export const away = signal(false);
/** it did answer then, that its database does not */
export const databaseAway = signal(false);
/** what the server said no to, in its own sentence; until the person puts it away */
export const refusal = signal<string | null>(null);
/** things not yet on disk, apart from what the stations hold themselves */
export const unsavedWrites = computed(() => waiting.value);

let running = false;
let wait = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

/** A write decides by itself what to do when refused; only an absent server is handled here. */
export function send(write: Write): void {
  queue.push(write);
  waiting.value = queue.length;
  void drain();
}

async function drain(): Promise<void> {
  if (running) return;
  running = true;
  clearTimeout(timer);
  while (queue.length > 0) {
    try {
      await queue[0]();
      away.value = false;
      wait = 0;
    } catch (error) {
      if (error instanceof ServerAway) {
        away.value = true;
        databaseAway.value = error.database;
        wait = Math.min(LONGEST_WAIT_MS, wait === 0 ? 500 : wait * 2);
        timer = setTimeout(() => void drain(), wait);
        running = false;
        return;
      }
      refusal.value = error instanceof Error ? error.message : String(error);
    }
    queue.shift();
    waiting.value = queue.length;
  }
  running = false;
}

/** Ask again now rather than at the end of the pause. */
export function tryAgain(): void {
  clearTimeout(timer);
  void drain();
}

addEventListener('online', tryAgain);
document.addEventListener('visibilitychange', () => {
  if (!document.hidden) tryAgain();
});
