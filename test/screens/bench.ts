/**
 * The real server with its own empty store, the built page, and a browser of this machine. One of each per test file.
 *
 * The browser is the one that PLATTERSIDE_CHROMIUM or PLATTERSIDE_FIREFOX names, or the distribution's. Where there is none the tests fail with
 * the one line that says how to get one.
 */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { utimes } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { APIResponse, Browser, BrowserContext, Page } from 'playwright-core';
// @ts-expect-error a script without types
import { buildWebIfStale } from '../../scripts/build.mjs';
// @ts-expect-error a script without types
import { buildCliIfStale } from '../../scripts/build-cli.mjs';
import { openFolds } from './axeFaults.ts';
import { type BrowserName, type LaunchOptions, launch } from './browsers.ts';
import { countAsking, PATIENCE_MS, settled } from './settled.ts';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const cli = join(root, 'dist', 'cli.mjs');

export interface Bench {
  readonly browser: Browser;
  readonly folder: string;
  /** id of the job that is open at the first start */
  readonly demo: string;
  /** e.g. http://127.0.0.1:41233 */
  readonly address: string;
  /** every address that a page of this bench asked for */
  readonly asked: string[];
  /** errors that a page of this bench met: script, console, content policy */
  readonly errors: string[];
  /** what lets a program in */
  readonly key: string;
  /** what the server itself answers, past every page */
  ask(method: string, path: string, body?: unknown): ReturnType<APIResponse['json']>;
  /** the demo job as it is stored */
  stored(): ReturnType<APIResponse['json']>;
  /** path of a station of the demo job */
  station(name: string): string;
  context(options?: Parameters<Browser['newContext']>[0]): Promise<BrowserContext>;
  /** a page that has come to rest */
  page(path?: string, options?: Parameters<Browser['newContext']>[0]): Promise<Page>;
  stopServer(): Promise<void>;
  startServer(): Promise<void>;
  close(): Promise<void>;
}

const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Test files run side by side: only one of them builds. */
async function build(): Promise<void> {
  mkdirSync(join(root, 'dist'), { recursive: true });
  const lock = join(root, 'dist', '.building');
  for (;;) {
    try {
      mkdirSync(lock);
      break;
    } catch {
      const held = statSync(lock, { throwIfNoEntry: false });
      // left behind by a run that was broken off: who builds keeps its lock fresh
      if (held !== undefined && Date.now() - held.mtimeMs > 60_000) rmSync(lock, { recursive: true, force: true });
      await sleep(200);
    }
  }
  const fresh = setInterval(() => void utimes(lock, new Date(), new Date()).catch(() => undefined), 5_000);
  try {
    await buildCliIfStale();
    await buildWebIfStale();
  } finally {
    clearInterval(fresh);
    rmSync(lock, { recursive: true, force: true });
  }
}

/** Runs a command of the product; standard output as text. */
export async function platterside(...args: string[]): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, [cli, ...args], {
    cwd: root,
    maxBuffer: 256 * 1024 * 1024,
  });
  return stdout;
}

function serve(
  store: string,
  port: string,
  more: readonly string[],
): Promise<{ child: ChildProcess; address: string; key: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [cli, 'serve', '--port', port, '--store', store, ...more], {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let said = '';
    const hear = (data: Buffer): void => {
      said += data.toString();
      const [, address, key] = /(http:\/\/\S+)\/\?key=(\S+)\s/.exec(said) ?? [];
      if (address !== undefined) resolve({ child, address, key });
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('exit', (code) => reject(new Error(`the server ended with status ${code}: ${said}`)));
  });
}

/** below the ports that the system gives to whoever asks for any: one of those was another bench's by the time that this one's server was started again */
const [FIRST_PORT, PORTS] = [12_000, 18_000];

/** On a port that stays this bench's while its server is away. */
async function serveAnywhere(store: string, more: readonly string[]): ReturnType<typeof serve> {
  for (let tries = 1; ; tries++) {
    try {
      return await serve(store, String(FIRST_PORT + randomInt(PORTS)), more);
    } catch (error) {
      if (tries === 5 || !String(error).includes('is taken')) throw error;
    }
  }
}

/** By a new connection each time: one that lay idle may be closed by the server at the very moment it is used again. */
async function ask(address: string, key: string, method: string, body?: unknown): ReturnType<APIResponse['json']> {
  const answer = await fetch(address, {
    method,
    headers: { connection: 'close', 'content-type': 'application/json', authorization: `Bearer ${key}` },
    body: body === undefined ? undefined : JSON.stringify(body),
  });
  const text = await answer.text();
  if (!answer.ok) throw new Error(`${method} ${address}: ${answer.status} ${text}`);
  return text === '' ? null : JSON.parse(text);
}

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) resolve();
    else child.once('exit', () => resolve());
  });

export interface BenchOptions extends LaunchOptions {
  /** Chromium where none is named */
  readonly browser?: BrowserName;
  /** every fold lies open from the start, as after a person opened it: for tests of what lies inside */
  readonly unfolded?: boolean;
  /** a file of its own where left out */
  readonly store?: string;
  /** more flags of `serve` */
  readonly serving?: readonly string[];
}

export async function openBench({
  unfolded = false,
  serving = [],
  store: place,
  ...more
}: BenchOptions = {}): Promise<Bench> {
  await build();
  const folder = mkdtempSync(join(tmpdir(), 'platterside-screens-'));
  const store = place ?? join(folder, 'store.sqlite');
  const started = await serveAnywhere(store, serving);
  const { address, key } = started;
  let { child } = started;
  const browser = await launch(more.browser ?? 'chromium', more);
  // a second bench on one store was at no job yet
  const demo: string = (await ask(`${address}/api/last`, key, 'GET')).job?.id ?? '';
  const asked: string[] = [];
  const errors: string[] = [];
  const bench: Bench = {
    browser,
    folder,
    demo,
    key,
    ask: (method, path, body) => ask(address + path, key, method, body),
    stored: () => bench.ask('GET', `/api/jobs/${demo}`),
    station: (name) => `/jobs/${demo}/${name}`,
    address,
    asked,
    errors,
    async context(options) {
      const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
      // as if the address that was printed had been opened
      const name = `platterside-${new URL(address).port}`;
      await context.addCookies([{ name, value: key, url: address, httpOnly: true, sameSite: 'Strict' }]);
      context.setDefaultTimeout(PATIENCE_MS);
      await countAsking(context);
      if (unfolded) await openFolds(context);
      context.on('request', (request) => asked.push(request.url()));
      context.on('weberror', (error) => errors.push(error.error().message));
      context.on('console', (message) => {
        if (message.type() === 'error') errors.push(message.text());
      });
      return context;
    },
    async page(path = '/', options) {
      const page = await (await bench.context(options)).newPage();
      await page.goto(address + path);
      await settled(page);
      return page;
    },
    async stopServer() {
      child.removeAllListeners('exit');
      child.kill('SIGKILL');
      await ended(child);
    },
    async startServer() {
      // the same port as before; what else may have taken it for a moment gives it back
      for (let tries = 1; ; tries++) {
        try {
          ({ child } = await serve(store, new URL(address).port, serving));
          return;
        } catch (error) {
          if (tries === 20) throw error;
          await sleep(500);
        }
      }
    },
    async close() {
      await browser.close();
      child.removeAllListeners('exit');
      child.kill('SIGTERM');
      await ended(child);
      rmSync(folder, { recursive: true, force: true });
    },
  };
  return bench;
}

/** Drops files on the page as a person does, by their bytes; a page that is still being opened takes none. */
export async function dropFiles(page: Page, files: readonly { name: string; bytes: Uint8Array }[]): Promise<void> {
  await settled(page);
  const transfer = await page.evaluateHandle(
    (given) => {
      const data = new DataTransfer();
      for (const { name, text } of given) {
        const binary = atob(text);
        data.items.add(new File([Uint8Array.from(binary, (c) => c.charCodeAt(0))], name));
      }
      return data;
    },
    files.map(({ name, bytes }) => ({ name, text: Buffer.from(bytes).toString('base64') })),
  );
  for (const type of ['dragenter', 'dragover', 'drop'])
    await page.dispatchEvent('main', type, { dataTransfer: transfer });
}
