/** Listens for changes that another window, another bench or a command made, of the open job and of the store, and shows them. */
import { computed, effect, signal } from '@preact/signals';
import { z } from 'zod';
import { apiPaths } from '../core/job/api.ts';
import { job, refreshJob } from './jobState.ts';
import { partsStirred, storeStirred } from './storeTurn.ts';

const toldSchema = z.object({ job: z.string(), updatedAt: z.string().nullable() });
const storeSchema = z.object({ parts: z.string() });

/** What this page wrote itself is answered about as soon as it is told of, ms. */
const OWN_ANSWER_MS = 300;
const MOST_LOOKS = 3;

/** A hidden page holds no line open: a browser has few for one server. */
const seen = signal(!document.hidden);
document.addEventListener('visibilitychange', () => {
  seen.value = !document.hidden;
});

let timer: ReturnType<typeof setTimeout> | undefined;

/** Fetches the job unless it is as new as was told; an answer that came meanwhile may have made the fetch void. */
function look(id: string, updatedAt: string, looks = 0): void {
  clearTimeout(timer);
  timer = setTimeout(() => {
    const open = job.peek();
    if (open?.id !== id || open.updatedAt === updatedAt || looks > MOST_LOOKS) return;
    refreshJob();
    look(id, updatedAt, looks + 1);
  }, OWN_ANSWER_MS);
}

/** Called once, when the page starts. */
export function hearChanges(): void {
  let line: { readonly id: string | null; readonly source: EventSource } | null = null;
  const openJob = computed(() => job.value?.id ?? null);
  effect(() => {
    const id = openJob.value;
    if (seen.value && line?.id === id) return;
    line?.source.close();
    line = null;
    if (!seen.value) return;
    const source = new EventSource(apiPaths.changes(id));
    line = { id, source };
    // its first word too: what was read before it may be older than a change that nobody was told of
    source.addEventListener('store', (event) => {
      const of = storeSchema.safeParse(JSON.parse(event.data));
      if (of.success) partsStirred(of.data.parts);
      storeStirred();
    });
    source.addEventListener('job', (event) => {
      const told = toldSchema.safeParse(JSON.parse(event.data));
      if (told.success && told.data.updatedAt !== null) look(told.data.job, told.data.updatedAt);
    });
  });
}
