/** Tells when something in a store was changed, whoever changed it: another program on this machine, or another bench. */
import Database from 'better-sqlite3';
import type { Client } from 'pg';
import { isPostgresUrl } from './postgresPlace.ts';
import { newClient } from './postgresPool.ts';

/** ms between two looks at a file, and between two questions whether the line to a database is still there */
const LOOK_MS = 500;
const ALIVE_MS = 10_000;
const SHORTEST_PAUSE_MS = 100;
const LONGEST_PAUSE_MS = 5_000;

export interface Watch {
  end(): Promise<void>;
}

/** @param told called after a change, soon and maybe once for several; it may be called where nothing changed */
export async function watchStore(place: string, told: () => void): Promise<Watch> {
  if (place === ':memory:') return { end: async () => undefined };
  return isPostgresUrl(place) ? listenTo(place, told) : lookAt(place, told);
}

/** A file tells no one of a change, but has a number that every change by another connection makes another one. */
function lookAt(file: string, told: () => void): Watch {
  const database = new Database(file, { readonly: true });
  const version = (): unknown => database.pragma('data_version', { simple: true });
  let seen = version();
  const timer = setInterval(() => {
    try {
      const now = version();
      if (now === seen) return;
      seen = now;
      told();
    } catch {
      // held by another program at this moment: the next look tells
    }
  }, LOOK_MS);
  timer.unref();
  return {
    async end() {
      clearInterval(timer);
      database.close();
    },
  };
}

/** A connection of its own that hears PostgreSQL's notifications, and comes back when it was lost. */
async function listenTo(url: string, told: () => void): Promise<Watch> {
  let client: Client | null = null;
  let ended = false;
  let pause = SHORTEST_PAUSE_MS;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const cut = (one: Client): void =>
    void (one as unknown as { connection: { stream: { destroy(): void } } }).connection.stream.destroy();
  const again = (): void => {
    clearTimeout(timer);
    client = null;
    if (ended) return;
    timer = setTimeout(() => void connect(), pause);
    timer.unref();
    pause = Math.min(LONGEST_PAUSE_MS, pause * 2);
  };
  async function connect(): Promise<void> {
    const fresh = await newClient(url);
    fresh.on('error', () => undefined);
    fresh.on('notification', told);
    try {
      await fresh.connect();
      const { rows } = await fresh.query('select quote_ident($1 || current_schema()) as channel', ['platterside ']);
      await fresh.query(`listen ${rows[0].channel}`);
    } catch {
      cut(fresh);
      again();
      return;
    }
    fresh.once('end', again);
    client = fresh;
    pause = SHORTEST_PAUSE_MS;
    // what was changed while nobody listened was not heard
    told();
  }
  const asking = setInterval(() => {
    const asked = client;
    asked?.query('select 1').catch(() => cut(asked));
  }, ALIVE_MS);
  asking.unref();
  await connect();
  return {
    async end() {
      ended = true;
      clearInterval(asking);
      clearTimeout(timer);
      await client?.end().catch(() => undefined);
    },
  };
}
