/** Tells open pages that something was changed elsewhere, as server-sent events: they ask for what they show. */
import { Hono } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { Store } from '../store/store.ts';
import { StoreAway } from '../store/storeError.ts';

/** A line on which nothing is said for so long gets a word that means nothing, so that either end notices a broken one, ms. */
const SILENCE_MS = 20_000;
/** Several changes within this time are told once, ms. */
const BREATH_MS = 100;

/** One watch over the store for all pages, there while anyone listens. */
function hub(store: Store) {
  const told = new Set<() => void>();
  let watch: ReturnType<Store['watch']> | null = null;
  return {
    async join(listener: () => void): Promise<void> {
      told.add(listener);
      watch ??= store.watch(() => {
        for (const one of told) one();
      });
      await watch;
    },
    async leave(listener: () => void): Promise<void> {
      told.delete(listener);
      if (told.size > 0 || watch === null) return;
      const ending = watch;
      watch = null;
      await (await ending).end();
    },
  };
}

/** Resolves when `wake` is called, at the latest after `ms`. */
function pause(ms: number): { readonly over: Promise<void>; wake(): void } {
  let wake = (): void => undefined;
  const over = new Promise<void>((resolve) => {
    const timer = setTimeout(resolve, ms);
    wake = () => {
      clearTimeout(timer);
      resolve();
    };
  });
  return { over, wake: () => wake() };
}

/**
 * `GET /changes?job=ID`: an event `job` with `{job, updatedAt}` at once and whenever that time is another one; `updatedAt` is
 * null where the job is gone. Without `job` an event `store` after every change, with `{parts}`, another text after every change
 * of parts and record files; with `&store=1` that beside those of the job.
 */
export function changeRoutes(store: Store): Hono {
  const routes = new Hono();
  const ears = hub(store);
  routes.get('/changes', (c) => {
    const job = c.req.query('job');
    const ofStore = job === undefined || c.req.query('store') !== undefined;
    return streamSSE(c, async (stream) => {
      let stirred = true;
      let waiting = pause(0);
      const stir = (): void => {
        stirred = true;
        waiting.wake();
      };
      stream.onAbort(stir);
      await ears.join(stir);
      try {
        let last: string | null | undefined;
        while (!stream.aborted) {
          if (stirred) {
            stirred = false;
            try {
              if (job !== undefined) {
                const now = await store.jobStamp(job);
                if (now !== last)
                  await stream.writeSSE({ event: 'job', data: JSON.stringify({ job, updatedAt: now }) });
                last = now;
              }
              if (ofStore)
                await stream.writeSSE({ event: 'store', data: JSON.stringify({ parts: await store.partsStamp() }) });
            } catch (error) {
              // the watch says so when the database is there again
              if (!(error instanceof StoreAway)) throw error;
            }
            await stream.sleep(BREATH_MS);
          } else await stream.write(': \n\n');
          waiting = pause(stirred ? 0 : SILENCE_MS);
          await waiting.over;
        }
      } finally {
        await ears.leave(stir);
      }
    });
  });
  return routes;
}
