/** A request that cannot be granted: status, code and one sentence, thrown by a handler and answered in one place. */
import type { ApiError, ErrorCode } from '../core/job/api.ts';
import type { LeafConflict } from '../core/job/leafPaths.ts';
import { StoreAway, StoreError, Unkeepable } from '../store/storeError.ts';

const statuses = {
  'bad-request': 400,
  'not-json': 415,
  'no-key': 401,
  forbidden: 403,
  'not-found': 404,
  conflict: 409,
  'too-large': 413,
  store: 503,
  away: 503,
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

/** By PostgreSQL's code, or the first part of it. */
const postgres: readonly (readonly [code: RegExp, sentence: string])[] = [
  [/^53100/, 'The disk of the database is full; nothing was saved.'],
  [/^25006/, 'The database can only be read; nothing was saved.'],
  [/^(55P03|57014)/, 'Another program is writing to the store; nothing was saved, try again.'],
  [/^42501/, 'The role of this bench may not do this in the database; nothing was saved.'],
];

/** Anything thrown, as a refusal. What nobody expected is told without its insides. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof Refusal) return error;
  if (error instanceof Unkeepable) return new Refusal('bad-request', error.message);
  if (error instanceof StoreAway) return new Refusal('away', error.message);
  if (error instanceof StoreError) return new Refusal('store', error.message);
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code === 'string' && code.startsWith('SQLITE_')) {
    const kind = Object.keys(sqlite).find((name) => code === name || code.startsWith(`${name}_`));
    return new Refusal('store', kind === undefined ? 'The store gave an error; nothing was saved.' : sqlite[kind]);
  }
  if (typeof code === 'string' && /^[0-9A-Z]{5}$/.test(code)) {
    const known = postgres.find(([pattern]) => pattern.test(code));
    return new Refusal('store', known?.[1] ?? 'The database gave an error; nothing was saved.');
  }
  return new Refusal('internal', 'Something failed in the server that should not; nothing was saved.');
}
