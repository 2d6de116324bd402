/** How far batches are. */
import { z } from 'zod';

const countsSchema = z.object({ open: z.number(), claimed: z.number(), done: z.number(), poisoned: z.number() });

export const batchStatusSchema = z.object({
  /** recordings by whether their fingerprint is known; `done`: it is */
  files: countsSchema,
  /** contents to be measured by this version of the methods */
  sides: countsSchema,
  workers: z.array(z.object({ worker: z.string(), has: z.number() })),
  /** sides an hour, over the last ten minutes; null where fewer than two were measured in them */
  hourly: z.number().nullable(),
  /** ISO, when all will be done at this pace; null where nothing is left, or no pace is known */
  endsAt: z.string().nullable(),
  /** set aside after three tries, the first of them */
  poisoned: z.array(z.object({ path: z.string(), why: z.string() })),
});
export type BatchStatus = z.infer<typeof batchStatusSchema>;
