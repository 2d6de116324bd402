/**
 * Connections to PostgreSQL that may break at any moment: the error of each is heard, so that none ends the program, and one
 * that broke or went silent is thrown away, not used again.
 */
import { isIP } from 'node:net';
import { checkServerIdentity, type PeerCertificate } from 'node:tls';
import type { Client, ClientConfig, Pool, PoolClient } from 'pg';
import { StoreAway } from './storeError.ts';

/** ms: to connect, for one statement's answer, for a lock that somebody holds, and for one that began and then fell silent */
const CONNECT_MS = 5_000;
const ANSWER_MS = 15_000;
const LOCK_MS = 10_000;
const SILENT_MS = 30_000;
const MOST_CONNECTIONS = 8;

/** class of PostgreSQL's codes: connection, shut down, out of room for connections */
const AWAY = /^(08|57P0|53300)/;
const AWAY_SYSTEM = /^(ECONN|EPIPE|ETIMEDOUT|EHOST|ENET|ENOTFOUND|EAI_AGAIN|ENOENT)/;
/** pg's own, which carry no code */
const AWAY_WORDS =
  /^(Connection terminated|Query read timeout|timeout e(xceeded|xpired)|Client has encountered|Client was closed)/i;

/** The database does not answer, or not as one that can be worked with. */
export function isAway(error: unknown): boolean {
  if (error instanceof StoreAway) return true;
  const { code, message = '' } = (error ?? {}) as { code?: unknown; message?: string };
  if (typeof code === 'string') return AWAY.test(code) || AWAY_SYSTEM.test(code);
  return AWAY_WORDS.test(message);
}

/** Two writers crossed; the database undid one of them, which may try again. */
export const isCrossed = (error: unknown): boolean =>
  /^(40001|40P01)$/.test(String((error as { code?: unknown } | null)?.code));

/** int8 comes as text unless it is asked for as a number; no count here is beyond 2⁵³ */
const INT8 = 20;

/** @param url without a password; the environment and PostgreSQL's own files give the rest */
async function configOf(url: string): Promise<ClientConfig> {
  const { default: pg } = await import('pg');
  return {
    connectionString: url,
    application_name: 'platterside',
    connectionTimeoutMillis: CONNECT_MS,
    query_timeout: ANSWER_MS,
    lock_timeout: LOCK_MS,
    idle_in_transaction_session_timeout: SILENT_MS,
    keepAlive: true,
    // to compile a statement takes longer than any of these takes to run
    options: '-c jit=off',
    types: {
      getTypeParser: ((id: number, format?: 'text') =>
        id === INT8 ? Number : pg.types.getTypeParser(id, format)) as typeof pg.types.getTypeParser,
    },
  };
}

interface Secured {
  readonly host: string;
  readonly connectionParameters: { readonly ssl?: unknown };
}

/**
 * Holds a certificate against the address that was asked for, where that is a number too: without it `pg` takes every numbered
 * address for `localhost`.
 */
function namedByNumber({ host, connectionParameters: { ssl } }: Secured): void {
  if (isIP(host) === 0 || typeof ssl !== 'object' || ssl === null) return;
  Object.assign(ssl, {
    checkServerIdentity: (_: string, certificate: PeerCertificate) => checkServerIdentity(host, certificate),
  });
}

/** `pg`'s own client, which believes a certificate only of the address that was asked for. */
async function clientClass(): Promise<typeof Client> {
  const { default: pg } = await import('pg');
  return class extends pg.Client {
    constructor(config: ClientConfig) {
      super(config);
      namedByNumber(this as unknown as Secured);
    }
  };
}

/** A connection of its own that listens; its errors are the caller's to hear. */
export async function newClient(url: string): Promise<Client> {
  return new (await clientClass())(await configOf(url));
}

/** What Kysely asks of a pool. */
export interface GuardedPool {
  connect(): Promise<PoolClient>;
  end(): Promise<void>;
}

export async function openPool(url: string): Promise<GuardedPool> {
  const { default: pg } = await import('pg');
  const pool: Pool = new pg.Pool({
    ...(await configOf(url)),
    Client: await clientClass(),
    max: MOST_CONNECTIONS,
    idleTimeoutMillis: SILENT_MS,
  });
  pool.on('error', () => undefined);
  pool.on('connect', (client) => void client.on('error', () => undefined));
  const guarded = new WeakMap<PoolClient, PoolClient>();
  return {
    async connect() {
      const client = await pool.connect();
      const known = guarded.get(client) ?? guard(client);
      guarded.set(client, known);
      return known;
    },
    end: () => pool.end(),
  };
}

/** The same client, which after a lost connection says so at once instead of waiting once more. */
function guard(client: PoolClient): PoolClient {
  let broken: Error | null = null;
  const query = async (text: string, values: unknown[]) => {
    if (broken !== null) throw broken;
    try {
      return await client.query(text, values);
    } catch (error) {
      if (isAway(error)) broken = error as Error;
      throw error;
    }
  };
  return { query, release: () => client.release(broken ?? undefined) } as unknown as PoolClient;
}
