/** The body of a request, checked against the schema that the page uses too. */
import type { HonoRequest } from 'hono';
import type { z } from 'zod';
import { checkSentence } from '../core/job/checkSentence.ts';
import { Refusal } from './refusal.ts';

/** Largest body taken, bytes: a document with all its curves is a tenth of it. */
export const MOST_BYTES = 16 * 1024 * 1024;

/** Lists and objects inside each other: what is read by its own shape must end. The deepest document has a tenth of it. */
const MOST_NESTED = 100;

/** Whether JSON opens more than `most` lists and objects inside each other; brackets in texts do not count. */
function isNestedDeeper(json: string, most: number): boolean {
  let depth = 0;
  let inText = false;
  for (let i = 0; i < json.length; i++) {
    const one = json[i];
    if (inText) {
      if (one === '\\') i += 1;
      else if (one === '"') inText = false;
    } else if (one === '"') inText = true;
    else if (one === '[' || one === '{') {
      depth += 1;
      if (depth > most) return true;
    } else if (one === ']' || one === '}') depth -= 1;
  }
  return false;
}

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
  const text = await request.text();
  if (isNestedDeeper(text, MOST_NESTED)) {
    throw new Refusal('bad-request', `The body is nested deeper than ${MOST_NESTED}; no document of the bench is.`);
  }
  try {
    value = JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) throw new Refusal('bad-request', 'The body is not JSON.');
    throw error;
  }
  const parsed = schema.safeParse(value);
  if (!parsed.success)
    throw new Refusal('bad-request', `The body is not what was expected; ${checkSentence(parsed.error)}.`);
  return parsed.data;
}
