/** The second screen over real sockets: what is answered there, to whom, for how long; and what is not. */
import { type IncomingMessage, request } from 'node:http';
import { networkInterfaces } from 'node:os';
import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type SecondFigure, type SecondState, secondStateSchema } from '../../core/job/api.ts';
import { say, statement } from '../../core/words/statement.ts';
import { countingOrigin } from '../../store/scratch.fixture.ts';
import { openStore, type Store } from '../../store/store.ts';
import { createApp } from '../app.ts';
import { doorWith } from '../door.ts';
import { pageFile } from '../pageFiles.ts';
import { SecondScreen } from './secondScreen.ts';

const KEY = 'k'.repeat(43);
const HOME = { address: '127.0.0.1', name: 'lan' };
const files = (entries: Record<string, string>) =>
  new Map(Object.entries(entries).map(([path, text]) => [path, pageFile(path, new TextEncoder().encode(text))]));

const hasIPv6 = Object.values(networkInterfaces())
  .flat()
  .some((one) => one?.address === '::1');

let store: Store;
let screen: SecondScreen;
let bench: Hono;
let clock: number;
let addresses: { address: string; name: string }[];

beforeEach(async () => {
  clock = 0;
  addresses = [HOME];
  store = await openStore(':memory:', countingOrigin());
  screen = new SecondScreen({
    page: files({ '/index.html': '<title>second screen</title>', '/assets/index-Ab3_x9Qz.js': 'export {}' }),
    addresses: () => addresses,
    now: () => clock,
    drawCode: () => '123456',
    unwatchedMs: 20,
  });
  bench = createApp({
    store,
    page: files({ '/index.html': '<title>bench</title>' }),
    version: '0.0.1',
    port: () => 4133,
    door: doorWith(KEY),
    reportOf: () => '',
    secondScreen: screen,
  });
});
afterEach(async () => {
  await screen.turnOff();
  await store.close();
});

const ask = (method: string, path: string, body?: unknown, key = KEY) =>
  bench.request(`http://127.0.0.1:4133/api/second-screen${path}`, {
    method,
    headers: {
      host: '127.0.0.1:4133',
      authorization: `Bearer ${key}`,
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    },
    body: body === undefined ? undefined : JSON.stringify(body),
  });

type On = Extract<SecondState, { on: true }>;

/** On, with somebody at the bench who watches. */
async function turnedOn(): Promise<On> {
  const state = secondStateSchema.parse(await (await ask('POST', '', {})).json());
  events((await ask('GET', '')).body);
  if (!state.on) throw new Error(state.why);
  return state;
}

/** What a stream has told so far, and whether it is over. */
function events(body: ReadableStream<Uint8Array> | null) {
  const heard = { all: [] as { event: string; data: never }[], over: false };
  const read = async (): Promise<void> => {
    let text = '';
    for await (const bytes of body ?? []) {
      text += new TextDecoder().decode(bytes);
      const parts = text.split('\n\n');
      text = parts.pop() ?? '';
      for (const part of parts) {
        const [, event, data] = /^event: (\w+)\ndata: (.*)$/.exec(part) ?? [];
        if (event !== undefined) heard.all.push({ event, data: JSON.parse(data) as never });
      }
    }
  };
  read().then(
    () => {
      heard.over = true;
    },
    () => {
      heard.over = true;
    },
  );
  return heard;
}
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000, interval: 20 });

/** the port is the same in each test: a connection of an earlier one is not used again */
const FRESH = { connection: 'close' };
const enter = (on: On, code: string, headers: Record<string, string> = {}) =>
  fetch(`${on.url}enter`, {
    method: 'POST',
    headers: { ...FRESH, 'content-type': 'application/json', ...headers },
    body: JSON.stringify({ code }),
  });
const figures = (on: On, token: string, headers: Record<string, string> = {}) =>
  fetch(`${on.url}figures`, { headers: { ...FRESH, authorization: `Bearer ${token}`, ...headers } });

async function letIn(on: On): Promise<string> {
  const { token } = (await (await enter(on, '123456')).json()) as { token: string };
  return token;
}

/** With any headers, `Host` too. */
const raw = (on: On, path: string, headers: Record<string, string>, method = 'GET'): Promise<IncomingMessage> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(on.url);
    // as a socket wants it, without brackets
    const host = hostname.replace(/^\[(.*)\]$/, '$1');
    const sent = request({ host, port, path, method, headers, agent: false }, (answer) => {
      answer.resume();
      resolve(answer);
    });
    sent.on('error', reject);
    sent.end();
  });

const shown: SecondFigure = {
  listening: true,
  band: 'left only · 1 kHz',
  figure: { title: 'Tilt', value: 0.91, unit: 'deg', uncertainty: 0.04, signed: true },
  turnDeg: -0.91,
  says: 'Turn anticlockwise, about 0.91°.',
  good: false,
  notes: [],
  ageS: 0,
};

describe('the second screen', () => {
  it('is off until the bench turns it on, and says so', async () => {
    const watched = events((await ask('GET', '')).body);
    await soon(() => watched.over).toBe(true);
    expect(watched.all).toEqual([{ event: 'state', data: { on: false, why: 'The second screen is off.' } }]);
    expect((await ask('PUT', '/figure', shown)).status).toBe(204);
    expect((await ask('POST', '', {}, 'x'.repeat(43))).status).toBe(401);
    expect(screen.state.on).toBe(false);
  });

  it('shows the figure to the device on which the code was entered, and to no other', async () => {
    const on = await turnedOn();
    expect(on).toMatchObject({ code: '123456', device: 'none', address: '127.0.0.1' });
    expect(await (await fetch(on.url, { headers: FRESH })).text()).toContain('second screen');
    expect((await figures(on, '')).status).toBe(401);
    expect((await figures(on, KEY)).status).toBe(401);
    expect((await enter(on, '654321')).status).toBe(403);
    expect((await enter(on, '123456')).status).toBe(429);
    clock += 1000;
    const token = await letIn(on);
    const seen = events((await figures(on, token)).body);
    await soon(() => (screen.state as On).device).toBe('connected');
    expect((screen.state as On).code).toBeNull();
    expect((await ask('PUT', '/figure', shown)).status).toBe(204);
    await soon(() => seen.all).toEqual([{ event: 'figure', data: shown }]);
    // the same device again: the earlier stream ends, the last figure is there at once
    const again = events((await figures(on, token)).body);
    await soon(() => again.all).toEqual([{ event: 'figure', data: shown }]);
    await soon(() => seen.over).toBe(true);
    clock += 1000;
    expect((await enter(on, '123456')).status).toBe(403);
  });

  it('answers nothing of the main server: each of its paths is not there, whatever is sent along', async () => {
    const on = await turnedOn();
    const { port } = new URL(on.url);
    const paths = bench.routes
      .filter(({ path, method }) => path.startsWith('/api/') && !path.includes('*') && method !== 'ALL')
      .map(({ method, path }) => ({ method, path: path.replace(/:[a-z]+/g, 'x') }));
    expect(paths.length).toBeGreaterThan(40);
    const everything = [
      ...paths,
      { method: 'GET', path: '/api' },
      { method: 'GET', path: '/jobs/x/tilt' },
      { method: 'GET', path: '/../bench.sqlite.key' },
      { method: 'POST', path: '/' },
      { method: 'PUT', path: '/figures' },
      { method: 'GET', path: '/enter' },
    ];
    for (const { method, path } of everything) {
      const headers = { host: `127.0.0.1:${port}`, authorization: `Bearer ${KEY}`, cookie: `platterside-4133=${KEY}` };
      const answer = await raw(on, path, headers, method);
      expect(`${method} ${path} ${answer.statusCode}`).toBe(`${method} ${path} 404`);
      expect(answer.headers['set-cookie']).toBeUndefined();
    }
  });

  it('refuses a name that somebody points at it, a page of another origin, and sets no cookie', async () => {
    const on = await turnedOn();
    const { host, port } = new URL(on.url);
    const token = await letIn(on);
    const authorization = `Bearer ${token}`;
    for (const hostile of ['evil.example', `evil.example:${port}`, 'localhost', `localhost:${port}`, '127.0.0.1']) {
      expect((await raw(on, '/', { host: hostile })).statusCode).toBe(403);
      expect((await raw(on, '/figures', { host: hostile, authorization })).statusCode).toBe(403);
    }
    const origins = ['http://evil.example', 'null', 'http://127.0.0.1:4133', `https://${host}`];
    for (const origin of origins)
      expect((await raw(on, '/figures', { host, authorization, origin })).statusCode).toBe(403);
    const page = await raw(on, '/', { host, origin: `http://${host}` });
    expect(page.statusCode).toBe(200);
    expect(page.headers['set-cookie']).toBeUndefined();
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(page.headers['access-control-allow-origin']).toBeUndefined();
  });

  it('is there at an address of IPv6 too: in brackets, in its own `Host` as well; where this machine has none, that is said', async () => {
    addresses = [{ address: '::1', name: 'lan' }];
    if (!hasIPv6) {
      expect(await (await ask('POST', '', {})).json()).toMatchObject({
        error: say(statement('second-not-here', { address: '::1' })),
      });
      expect(screen.state.on).toBe(false);
      return;
    }
    const on = await turnedOn();
    expect(on.url).toMatch(/^http:\/\/\[::1\]:\d+\/$/);
    expect(on.address).toBe('::1');
    const { host, port } = new URL(on.url);
    const token = await letIn(on);
    expect((await figures(on, token, { origin: `http://${host}` })).status).toBe(200);
    expect((await figures(on, token, { origin: 'http://evil.example' })).status).toBe(403);
    expect((await raw(on, '/', { host })).statusCode).toBe(200);
    for (const hostile of [`[::2]:${port}`, `localhost:${port}`, `127.0.0.1:${port}`])
      expect((await raw(on, '/', { host: hostile })).statusCode).toBe(403);
  });

  it('turns itself off after five wrong codes', async () => {
    const on = await turnedOn();
    const watched = events((await ask('GET', '')).body);
    for (let tried = 1; tried <= 5; tried++) {
      expect((await enter(on, '000000')).status).toBe(tried === 5 ? 410 : 403);
      clock += 1000;
    }
    await soon(() => watched.over).toBe(true);
    expect(watched.all.at(-1)?.data).toEqual({
      on: false,
      why: 'The second screen turned itself off: 5 wrong codes were entered.',
    });
    await expect(fetch(on.url)).rejects.toThrow();
  });

  it('is off at one button: the device is told, the socket is closed', async () => {
    const on = await turnedOn();
    const seen = events((await figures(on, await letIn(on))).body);
    expect((await ask('DELETE', '')).status).toBe(204);
    await soon(() => seen.over).toBe(true);
    expect(seen.all).toEqual([{ event: 'end', data: { why: 'second-ended' } }]);
    await expect(fetch(on.url)).rejects.toThrow();
  });

  it('is off when the page that turned it on is gone', async () => {
    const on = await turnedOn();
    await screen.turnOff();
    expect((await ask('POST', '', {})).status).toBe(200);
    const watching = await ask('GET', '');
    await new Promise((resolve) => setTimeout(resolve, 60));
    expect(screen.state.on).toBe(true);
    await watching.body?.cancel();
    await soon(() => screen.state).toEqual({
      on: false,
      why: 'The second screen turned itself off: the page that turned it on was closed.',
    });
    await expect(fetch(on.url)).rejects.toThrow();
  });

  it('lets another device in by a new code, and the first out', async () => {
    const on = await turnedOn();
    const token = await letIn(on);
    const seen = events((await figures(on, token)).body);
    await soon(() => (screen.state as On).device).toBe('connected');
    expect((await ask('POST', '/code')).status).toBe(204);
    await soon(() => seen.over).toBe(true);
    expect(seen.all).toEqual([{ event: 'end', data: { why: 'second-other' } }]);
    expect((await figures(on, token)).status).toBe(401);
    expect((screen.state as On).code).toBe('123456');
  });

  it('says why it cannot be turned on', async () => {
    addresses = [];
    expect(await (await ask('POST', '', {})).json()).toMatchObject({
      error: expect.stringContaining('private network'),
    });
    addresses = [{ address: '198.51.100.7', name: 'gone' }];
    expect(await (await ask('POST', '', {})).json()).toMatchObject({ error: expect.stringContaining('198.51.100.7') });
    addresses = [HOME];
    expect((await ask('POST', '', { address: '10.9.9.9' })).status).toBe(404);
    expect(screen.state.on).toBe(false);
  });

  it('takes only a figure as it should be', async () => {
    await turnedOn();
    expect((await ask('PUT', '/figure', { ...shown, owner: 'R. Example' })).status).toBe(400);
    expect((await ask('PUT', '/figure', { ...shown, says: 'x'.repeat(301) })).status).toBe(400);
  });
});
