import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { healthSchema, jobListSchema, lastSchema } from '../core/job/api.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const program = join(root, '.tmp', `serve-${process.pid}.mjs`);
const folder = scratchFolder();
const store = join(folder.path, 'bench.sqlite');
const running = new Set<ChildProcess>();

beforeAll(async () => {
  await build({
    entryPoints: [join(root, 'src/cli/main.ts')],
    outfile: program,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    logLevel: 'silent',
  });
});
afterAll(() => {
  for (const child of running) child.kill('SIGKILL');
  folder.remove();
  rmSync(program, { force: true });
});

interface Serving {
  readonly child: ChildProcess;
  readonly address: string;
  /** what the printed key lets in */
  ask(path: string, init?: RequestInit): Promise<Response>;
  readonly ended: Promise<{ code: number | null; out: string; err: string }>;
}

/** Starts the program; resolves when it has printed its address, or has ended. */
function serve(...args: string[]): Promise<Serving> {
  const child = spawn(process.execPath, [program, 'serve', '--store', store, ...args], {
    env: { PATH: process.env.PATH, HOME: folder.path },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.add(child);
  let out = '';
  let err = '';
  child.stderr.on('data', (bytes) => {
    err += bytes;
  });
  const ended = new Promise<{ code: number | null; out: string; err: string }>((resolve) => {
    child.on('close', (code) => {
      running.delete(child);
      resolve({ code, out, err });
    });
  });
  return new Promise((resolve) => {
    child.stdout.on('data', (bytes) => {
      out += bytes;
      const address = out.match(/http:\/\/127\.0\.0\.1:\d+\//)?.[0];
      const key = out.match(/\?key=([A-Za-z0-9_-]+)/)?.[1] ?? '';
      const ask: Serving['ask'] = (path, init) =>
        fetch(address + path, { ...init, headers: { ...init?.headers, authorization: `Bearer ${key}` } });
      if (address !== undefined && out.includes('Ctrl-C')) resolve({ child, address, ask, ended });
    });
    ended.then(() => resolve({ child, address: '', ask: fetch, ended }));
  });
}

describe('serve', () => {
  it('prints its address, has the demo job open, and stops cleanly', async () => {
    const { child, address, ask, ended } = await serve('--port', '0', '--open');
    const health = healthSchema.parse(await (await fetch(`${address}api/health`)).json());
    expect(health.version).toMatch(/^\d+\.\d+\.\d+$/);
    const last = lastSchema.parse(await (await ask('api/last')).json());
    expect(last.job?.title).toBe('Job 41 · bench deck 3');
    expect(last.station).toBe('tilt');
    const report = await (await ask(`api/jobs/${last.job?.id}/report`)).text();
    expect(report).toContain('Not final');
    child.kill('SIGTERM');
    const { code, out, err } = await ended;
    expect(code).toBe(0);
    expect(out).toContain(store);
    expect(err).toContain('No desktop here');
  });

  it('shares a store with a second instance; what one writes the other reads', async () => {
    const [first, second] = [await serve('--port', '0'), await serve('--port', '0')];
    expect(first.address).not.toBe(second.address);
    const made = await first.ask('api/jobs', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ deck: { name: 'deck in the window' } }),
    });
    expect(made.status).toBe(201);
    const list = jobListSchema.parse(await (await second.ask('api/jobs')).json());
    expect(list.jobs.map((job) => job.number)).toEqual([42, 41]);
    first.child.kill('SIGINT');
    second.child.kill('SIGINT');
    expect((await first.ended).code).toBe(0);
    expect((await second.ended).code).toBe(0);
  });

  it('lets nobody in who does not know the key, which stays over restarts and is its owner’s alone', async () => {
    const first = await serve('--port', '0');
    expect((await fetch(`${first.address}api/jobs`)).status).toBe(401);
    expect((await first.ask('api/jobs')).status).toBe(200);
    expect(statSync(`${store}.key`).mode & 0o777).toBe(0o600);
    const key = readFileSync(`${store}.key`, 'utf8').trim();
    first.child.kill('SIGTERM');
    await first.ended;
    chmodSync(`${store}.key`, 0o644);
    const second = await serve('--port', '0');
    const answer = await fetch(`${second.address}api/jobs`, { headers: { authorization: `Bearer ${key}` } });
    expect(answer.status).toBe(200);
    expect(statSync(`${store}.key`).mode & 0o777).toBe(0o600);
    second.child.kill('SIGTERM');
    await second.ended;
  });

  it('says in one line that a port is taken', async () => {
    const first = await serve('--port', '0');
    const port = new URL(first.address).port;
    const { code, err } = await (await serve('--port', port)).ended;
    expect([code, err]).toEqual([
      1,
      `platterside: Port ${port} is taken by another program; name another with --port.\n`,
    ]);
    first.child.kill('SIGTERM');
    await first.ended;
  });

  it('refuses a port that is none, with status 2', async () => {
    const { code, err } = await (await serve('--port=70000')).ended;
    expect(code).toBe(2);
    expect(err).toContain('a whole number from 0 to 65535 was expected');
  });
});
