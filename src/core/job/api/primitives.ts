/** What bodies are made of: ids, times, texts within bounds. */
import { z } from 'zod';

/** Grows only when a key or a meaning changes. */
export const API_SCHEMA = 1;

export const id = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/, { error: 'an id is 1 to 64 letters, digits, - or _' });
export const time = z.iso.datetime({ error: 'a time is written as 2026-03-04T09:30:00.000Z' });
/** a column of either database holds as much */
export const revision = z
  .number()
  .int()
  .min(0)
  .max(2 ** 31 - 1);
/** of a page of jobs that begins below this number, in an address */
export const beforeNumber = z.coerce
  .number()
  .int()
  .min(1)
  .max(2 ** 31 - 1)
  .optional();
export const line = z.string().trim().max(200);
/** kept as it was typed, blanks and all, but never blank */
export const named = z
  .string()
  .max(200)
  .refine((text) => text.trim() !== '', { error: 'a name was expected' });
export const paragraph = z.string().max(20_000);

/** One step of the hands: what is taken back together shares it. */
export const step = z
  .string()
  .regex(/^[A-Za-z0-9_:.-]{1,64}$/, { error: 'a step is 1 to 64 letters, digits, - _ : or .' });
