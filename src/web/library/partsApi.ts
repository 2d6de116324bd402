/** The person's parts over the local server. Errors as everywhere: it is away, or it said no in a sentence. */
import {
  apiErrorSchema,
  apiPaths,
  type PartChange,
  type PartRecord,
  partConflictSchema,
  partListSchema,
  partRecordSchema,
} from '../../core/job/api.ts';
import type { PartKind } from '../../core/job/partFields.ts';
import { ServerAway, ServerSaid } from '../api.ts';

const PATIENCE_MS = 15_000;

async function ask(method: string, path: string, body?: unknown): Promise<unknown> {
  let response: Response;
  let text: string;
  try {
    response = await fetch(path, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      body: body === undefined ? undefined : JSON.stringify(body),
      signal: AbortSignal.timeout(PATIENCE_MS),
      credentials: 'omit',
      cache: 'no-store',
    });
    text = await response.text();
  } catch {
    throw new ServerAway('The bench server does not answer.');
  }
  if (response.status === 204) return null;
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new ServerAway('Something other than the bench server answered.');
  }
  if (response.ok) return data;
  const said = apiErrorSchema.safeParse(data);
  throw new ServerSaid(
    response.status,
    said.success ? said.data.error : `The bench server refused with status ${response.status}.`,
    data,
  );
}

export async function fetchParts(): Promise<readonly PartRecord[]> {
  return partListSchema.parse(await ask('GET', apiPaths.parts)).parts;
}

/** What came of writing a part: it stands there, or somebody else changed it meanwhile (null: took it away). */
export type PartWritten =
  | { readonly written: true; readonly record: PartRecord }
  | { readonly written: false; readonly current: PartRecord | null };

export async function writePart(kind: PartKind, id: string, change: PartChange): Promise<PartWritten> {
  try {
    return { written: true, record: partRecordSchema.parse(await ask('PUT', apiPaths.part(kind, id), change)) };
  } catch (error) {
    const conflict = error instanceof ServerSaid ? partConflictSchema.safeParse(error.body) : null;
    if (conflict?.success) return { written: false, current: conflict.data.current };
    throw error;
  }
}

/** Taking away what is gone already is no error. */
export async function removePart(kind: PartKind, id: string): Promise<void> {
  try {
    await ask('DELETE', apiPaths.part(kind, id));
  } catch (error) {
    if (!(error instanceof ServerSaid && error.status === 404)) throw error;
  }
}
