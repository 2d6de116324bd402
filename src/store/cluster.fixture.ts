/** For tests: a PostgreSQL of their own in a temporary folder, gone when they are, even when they are killed. */
import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import pg from 'pg';
import { WRITER } from './migrations.ts';
import { quickPlace } from './scratch.fixture.ts';
import { openStore } from './store.ts';

const DEBIAN = '/usr/lib/postgresql';
/** a few seconds on a machine that has much else to do */
const PATIENCE_MS = 60_000;
/** databases that are emptied and used again, one after the other */
const ROOMS = 4;
/** Rows taken out one by one, what points to what passed over: to truncate would make each table and index anew. */
const EMPTYING = `do $$ declare one text; begin
  set local session_replication_role = replica;
  for one in select tablename from pg_tables where schemaname = 'public' and tablename <> 'layout_steps'
  loop execute format('delete from %I', one); end loop;
  insert into settings (name, value) values ('${WRITER}', '');
end $$`;

/** @throws Error where PostgreSQL is not installed: no test is left out in silence */
function binaries(): string {
  const versions = existsSync(DEBIAN) ? readdirSync(DEBIAN).sort((a, b) => Number(b) - Number(a)) : [];
  const folders = [...versions.map((version) => join(DEBIAN, version, 'bin')), ...(process.env.PATH ?? '').split(':')];
  const found = folders.find((folder) => ['initdb', 'postgres'].every((name) => existsSync(join(folder, name))));
  if (found === undefined) throw new Error('PostgreSQL is not installed: npm test installs it, or install postgresql');
  return found;
}

/** A server refuses to run as root; Debian makes an account for it. */
function account(): { readonly uid: number; readonly gid: number } | null {
  if (process.getuid?.() !== 0) return null;
  const id = (what: string): number => Number(execFileSync('id', [what, 'postgres']).toString());
  return { uid: id('-u'), gid: id('-g') };
}

export interface Cluster {
  /** address of a database of it */
  url(database: string): string;
  /** an empty database; its address */
  empty(): Promise<string>;
  /** an empty store of today's layout, in one of a few databases that are used again; its address */
  fresh(): Promise<string>;
  query(text: string, database?: string): Promise<Record<string, unknown>[]>;
  /** ends it at once, as a power cut would leave it, or starts it again */
  stop(): Promise<void>;
  start(): Promise<void>;
  /** its process, to be frozen with SIGSTOP */
  readonly pid: number;
  end(): Promise<void>;
}

/**
 * @param settings lines of postgresql.conf, e.g. `fsync=off`
 * @param host what it trusts: `trust` or `scram-sha-256`
 * @param port of 127.0.0.1, where it listens there too
 */
export async function startCluster(
  settings: readonly string[] = ['fsync=off'],
  host = 'trust',
  port?: number,
): Promise<Cluster> {
  const folder = mkdtempSync(join(quickPlace(), 'pg-'));
  const bin = binaries();
  const as = account();
  chmodSync(folder, 0o755);
  const data = join(folder, 'data');
  mkdirSync(data, { mode: 0o700 });
  const sockets = join(folder, 's');
  mkdirSync(sockets);
  if (as !== null) for (const path of [data, sockets]) chownSync(path, as.uid, as.gid);
  const made = spawnSync(
    join(bin, 'initdb'),
    [
      '-D',
      data,
      '-U',
      'postgres',
      '-E',
      'UTF8',
      '--locale=C.UTF-8',
      '--no-sync',
      '--wal-segsize=1',
      `--auth-local=trust`,
      `--auth-host=${host}`,
    ],
    { ...as, cwd: '/', encoding: 'utf8' },
  );
  if (made.status !== 0) throw new Error(`initdb: ${made.stderr}`);
  const there = port === undefined ? '' : `&port=${port}`;
  const url = (database: string): string =>
    `postgresql://${encodeURIComponent(sockets)}/${database}?user=postgres${there}`;
  let child: ChildProcess | null = null;

  async function start(): Promise<void> {
    const listening = port === undefined ? ['-c', 'listen_addresses='] : ['-h', '127.0.0.1', '-p', String(port)];
    const flags = ['-D', data, '-k', sockets, ...listening, ...settings.flatMap((one) => ['-c', one])];
    const program = join(bin, 'postgres');
    // its end is this process's end, however that comes
    const [command, args] =
      process.platform === 'linux' ? ['setpriv', ['--pdeathsig', 'INT', program, ...flags]] : [program, flags];
    const running = spawn(command, args, { ...as, cwd: '/', stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    running.stderr.on('data', (bytes) => {
      said = (said + bytes).slice(-2000);
    });
    child = running;
    for (const until = Date.now() + PATIENCE_MS; ; ) {
      const client = new pg.Client(url('postgres'));
      client.on('error', () => undefined);
      try {
        await client.connect();
        await client.end();
        return;
      } catch {
        if (running.exitCode !== null || Date.now() > until) throw new Error(`PostgreSQL did not start: ${said}`);
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
    }
  }

  async function stop(): Promise<void> {
    const running = child;
    child = null;
    if (running === null || running.exitCode !== null) return;
    const gone = new Promise((resolve) => running.once('exit', resolve));
    // quit at once: what was not written is found again in its log
    running.kill('SIGQUIT');
    await gone;
  }

  async function query(text: string, database = 'postgres'): Promise<Record<string, unknown>[]> {
    const client = new pg.Client(url(database));
    await client.connect();
    try {
      return (await client.query(text)).rows;
    } finally {
      await client.end();
    }
  }

  let databases = 0;
  async function empty(): Promise<string> {
    const name = `store_${++databases}`;
    await query(`create database ${name} template template0`);
    return url(name);
  }

  const rooms: string[] = [];
  let turn = 0;
  /** Making a database takes far longer than emptying one; those who use more than four at once want `empty`. */
  async function fresh(): Promise<string> {
    if (rooms.length < ROOMS) {
      rooms.push(await empty());
      await (await openStore(rooms[rooms.length - 1])).close();
      return rooms[rooms.length - 1];
    }
    const room = rooms[turn++ % ROOMS];
    await query(EMPTYING, new URL(room).pathname.slice(1));
    return room;
  }

  await start();
  return {
    url,
    empty,
    fresh,
    query,
    stop,
    start,
    get pid() {
      return child?.pid ?? 0;
    },
    async end() {
      await stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
