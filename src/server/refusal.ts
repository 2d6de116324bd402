/** A request that cannot be granted: status, code and one sentence, thrown by a handler and answered in one place. */
import type { ApiError, ErrorCode } from '../core/job/api.ts';
import type { LeafConflict } from '../core/job/leafPaths.ts';
import { StoreError } from '../store/storeError.ts';

const statuses = {
  'bad-request': 400,
  'not-json': 415,
  'no-key': 401,
  forbidden: 403,
  'not-found': 404,
  conflict: 409,
  'too-large': 413,
  store: 503,
  internal: 500,
} as const satisfies Record<ErrorCode, number>;

export type RefusalStatus = (typeof statuses)[ErrorCode];

export class Refusal extends Error {
  readonly status: RefusalStatus;
  readonly body: ApiError & { readonly current?: unknown; readonly conflicts?: readonly LeafConflict[] };

  /** @param conflict what is kept now, and the leaves at odds with both values */
  constructor(
    code: ErrorCode,
    sentence: string,
    conflict: { readonly current?: unknown; readonly conflicts?: readonly LeafConflict[] } = {},
  ) {
    super(sentence);
    this.status = statuses[code];
    this.body = { error: sentence, code, ...conflict };
  }
}

const sqlite: Readonly<Record<string, string>> = {
  SQLITE_FULL: 'The disk is full; nothing was saved.',
  SQLITE_READONLY: 'The store can only be read; nothing was saved.',
  SQLITE_BUSY: 'Another program is writing to the store; nothing was saved, try again.',
  SQLITE_IOERR: 'The disk gave an error; nothing was saved.',
  SQLITE_CORRUPT: 'The store is damaged; nothing was saved. Bring it back from a copy.',
  SQLITE_NOTADB: 'The store is damaged; nothing was saved. Bring it back from a copy.',
};

/** Anything thrown, as a refusal. What nobody expected is told without its insides. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof Refusal) return error;
  if (error instanceof StoreError) return new Refusal('store', error.message);
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code === 'string' && code.startsWith('SQLITE_')) {
    const kind = Object.keys(sqlite).find((name) => code === name || code.startsWith(`${name}_`));
    return new Refusal('store', kind === undefined ? 'The store gave an error; nothing was saved.' : sqlite[kind]);
  }
  return new Refusal('internal', 'Something failed in the server that should not; nothing was saved.');
}
