/** What the shop has set for all its jobs, under what is typed in the job: verdicts and budgets go by both. */
import { effect } from '@preact/signals';
import type { Job } from '../core/job/api.ts';
import { sameJson } from '../core/job/sameJson.ts';
import type { JobAndShop, Shop } from '../core/job/shop.ts';
import type { RunTyped } from '../core/job/stations/run.ts';
import type { TiltTyped } from '../core/job/stations/tilt.ts';
import { api, ServerAway } from './api.ts';
import { send } from './connection.ts';
import { job, refreshJob, takeShop } from './jobState.ts';
import { draftOf } from './stationDraft.ts';
import { storeTurn } from './storeTurn.ts';

/** As typed now, saved or not. */
export function jobAndShop(jobId: string): JobAndShop {
  const open = job.value;
  return {
    run: draftOf(jobId, 'run').data.value as RunTyped,
    tilt: draftOf(jobId, 'tilt').data.value as TiltTyped,
    shop: open?.id === jobId ? open.shop : {},
  };
}

/** Shows at once, and is saved by itself, also later when the server is away. */
export function setShop(patch: Partial<Shop>): void {
  const shop = { ...(job.peek()?.shop ?? {}), ...patch } as Job['shop'];
  takeShop(shop);
  sending += 1;
  send(async () => {
    try {
      takeShop(await api.setShop(shop));
      refreshJob();
    } catch (error) {
      // while the server is away the same is sent again
      if (!(error instanceof ServerAway)) sending -= 1;
      throw error;
    }
    sending -= 1;
  });
}

/** what is on its way to the server: a shop that was told before it came there is an older one */
let sending = 0;

// what another window or bench set: verdicts go by it, so that the job is asked for again
effect(() => {
  if (storeTurn.value === 0 || job.peek() === null) return;
  const before = sending;
  api.shop().then(
    (shop) => {
      if (sending === before && before === 0 && !sameJson(shop, job.peek()?.shop ?? {})) refreshJob();
    },
    () => undefined,
  );
});
