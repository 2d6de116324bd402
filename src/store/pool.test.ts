/** What is handed out of the pool, over a driver that is told what to do. */
import { beforeEach, expect, it, vi } from 'vitest';
import { openPool } from './postgresPool.ts';

interface Client {
  readonly asked: unknown[][];
  readonly released: unknown[];
  fails: Error | null;
}
const driver = vi.hoisted(() => ({
  clients: [] as unknown[],
  next: 0,
  configs: [] as unknown[],
  ended: 0,
  heard: [] as string[],
}));
vi.mock('pg', () => {
  class Pool {
    constructor(config: unknown) {
      driver.configs.push(config);
    }
    on(event: string, told: (client: unknown) => void) {
      driver.heard.push(event);
      told({ on: (inner: string) => driver.heard.push(`client ${inner}`) });
    }
    async connect() {
      return driver.clients[driver.next];
    }
    async end() {
      driver.ended += 1;
    }
  }
  const types = { getTypeParser: (id: number) => `parser of ${id}` };
  return { default: { Pool, types, Client: class {} } };
});

const away = Object.assign(new Error('gone'), { code: 'ECONNRESET' });
const crossed = Object.assign(new Error('crossed'), { code: '40001' });

function client(): Client & Record<string, unknown> {
  const asked: unknown[][] = [];
  const released: unknown[] = [];
  return {
    asked,
    released,
    fails: null,
    async query(...given: unknown[]) {
      asked.push(given);
      if (this.fails !== null) throw this.fails;
      return { rows: [asked.length] };
    },
    release: (why: unknown) => void released.push(why),
  };
}
beforeEach(() => {
  Object.assign(driver, { clients: [client(), client()], next: 0, configs: [], ended: 0, heard: [] });
});
const clientAt = (place: number) => driver.clients[place] as Client;

it('a statement goes to the client with its values, and its answer comes back', async () => {
  const pool = await openPool('postgresql://db/x');
  const one = await pool.connect();
  expect(await one.query('select $1', ['a'])).toEqual({ rows: [1] });
  expect(clientAt(0).asked).toEqual([['select $1', ['a']]]);
  one.release();
  expect(clientAt(0).released).toEqual([undefined]);
  await pool.end();
  expect(driver.ended).toBe(1);
});

it('a client that lost its line says so at once from then on, and is thrown away', async () => {
  const pool = await openPool('postgresql://db/x');
  const one = await pool.connect();
  clientAt(0).fails = away;
  await expect(one.query('a')).rejects.toBe(away);
  clientAt(0).fails = null;
  await expect(one.query('b')).rejects.toBe(away);
  expect(clientAt(0).asked).toEqual([['a', undefined]]);
  one.release();
  expect(clientAt(0).released).toEqual([away]);
});

it('one whose statement failed for another reason is worked with again', async () => {
  const pool = await openPool('postgresql://db/x');
  const one = await pool.connect();
  clientAt(0).fails = crossed;
  await expect(one.query('a')).rejects.toBe(crossed);
  clientAt(0).fails = null;
  expect(await one.query('b')).toEqual({ rows: [2] });
  one.release();
  expect(clientAt(0).released).toEqual([undefined]);
});

it('each client is guarded once, and by itself', async () => {
  const pool = await openPool('postgresql://db/x');
  const one = await pool.connect();
  expect(await pool.connect()).toBe(one);
  driver.next = 1;
  expect(await pool.connect()).not.toBe(one);
});

it('the lines are bounded in number and in how long anything is waited for, and none ends the program', async () => {
  await openPool('postgresql://db/x');
  expect(driver.configs).toEqual([
    {
      connectionString: 'postgresql://db/x',
      application_name: 'platterside',
      connectionTimeoutMillis: 5_000,
      query_timeout: 15_000,
      lock_timeout: 10_000,
      idle_in_transaction_session_timeout: 30_000,
      keepAlive: true,
      options: '-c jit=off',
      types: { getTypeParser: expect.any(Function) },
      Client: expect.any(Function),
      max: 8,
      idleTimeoutMillis: 30_000,
    },
  ]);
  expect(driver.heard).toEqual(['error', 'connect', 'client error']);
  const [{ types }] = driver.configs as { types: { getTypeParser(id: number, format?: string): unknown } }[];
  expect([types.getTypeParser(20), types.getTypeParser(23, 'text')]).toEqual([Number, 'parser of 23']);
});
