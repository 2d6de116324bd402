/** The body of a request, checked against the schema that the page uses too. */
import type { HonoRequest } from 'hono';
import type { z } from 'zod';
import { checkSentence } from '../core/job/checkSentence.ts';
import { Refusal } from './refusal.ts';

/** Largest body taken, bytes: a document with all its curves is a tenth of it. */
export const MOST_BYTES = 16 * 1024 * 1024;

/**
 * @throws Refusal when it is not JSON, or not what `schema` expects
 */
export async function bodyOf<T>(request: HonoRequest, schema: z.ZodType<T>): Promise<T> {
  const type = request.header('content-type') ?? '';
  // a form on a stranger's page cannot send this type without asking first
  if (!/^application\/json(\s*;|\s*$)/i.test(type)) {
    throw new Refusal('not-json', `The body was sent as '${type.slice(0, 60)}'; application/json was expected.`);
  }
  let value: unknown;
  try {
    value = JSON.parse(await request.text());
  } catch (error) {
    if (error instanceof SyntaxError) throw new Refusal('bad-request', 'The body is not JSON.');
    throw error;
  }
  const parsed = schema.safeParse(value);
  if (!parsed.success)
    throw new Refusal('bad-request', `The body is not what was expected; ${checkSentence(parsed.error)}.`);
  return parsed.data;
}
