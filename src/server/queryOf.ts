/** What an address asks, read by its schema. */
import type { z } from 'zod';
import { checkSentence } from '../core/job/checkSentence.ts';
import { Refusal } from './refusal.ts';

/** @throws Refusal with one sentence when it asks for something else */
export function queryOf<T>(schema: z.ZodType<T>, query: Record<string, string>): T {
  const read = schema.safeParse(query);
  if (!read.success) throw new Refusal('bad-request', `${checkSentence(read.error)}.`);
  return read.data;
}
