/** What the shop has set for all its jobs, under what is typed in the job: verdicts and budgets go by both. */
import type { Job } from '../core/job/api.ts';
import type { JobAndShop, Shop } from '../core/job/shop.ts';
import type { RunTyped } from '../core/job/stations/run.ts';
import type { TiltTyped } from '../core/job/stations/tilt.ts';
import { api } from './api.ts';
import { send } from './connection.ts';
import { job, refreshJob, takeShop } from './jobState.ts';
import { draftOf } from './stationDraft.ts';

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
  send(async () => {
    takeShop(await api.setShop(shop));
    refreshJob();
  });
}
