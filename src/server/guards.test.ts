/** What keeps strangers out, asked the way a stranger would ask. */
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { apiPaths } from '../core/job/api.ts';
import { countingOrigin, given } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { createApp } from './app.ts';
import { doorWith } from './door.ts';
import { listen } from './listen.ts';
import { pageFile } from './pageFiles.ts';

const KEY = 'k'.repeat(43);
let store: Store;
let app: Hono;
const page = new Map([['/index.html', pageFile('/index.html', new TextEncoder().encode('<!doctype html>'))]]);

beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
  app = createApp({
    store,
    page,
    version: '0',
    port: () => 4133,
    door: doorWith(KEY),
    reportOf: () => '<h1>report</h1>',
  });
});
afterEach(() => store.close());

const ask = (path: string, headers: Record<string, string> = {}, method = 'GET', body?: string) =>
  app.request(`http://127.0.0.1:4133${path}`, {
    method,
    body,
    headers: { host: '127.0.0.1:4133', authorization: `Bearer ${KEY}`, ...headers },
  });

const policyOf = (response: Response) =>
  new Map(
    (response.headers.get('content-security-policy') ?? '').split('; ').map((part): [string, string] => {
      const [name, ...rest] = part.split(' ');
      return [name, rest.join(' ')];
    }),
  );

describe('a page of another site', () => {
  it('that asks as an image or a frame does, without an origin, gets nothing of what is stored', async () => {
    expect((await ask('/api/jobs', { 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect((await ask('/api/jobs', { 'sec-fetch-site': 'same-site' })).status).toBe(403);
  });

  it('cannot put the bench page into a frame, and only the bench page may show a report in one', async () => {
    expect(policyOf(await ask('/')).get('frame-ancestors')).toBe("'none'");
    const { id } = given(await store.createJob({ deck: { name: 'd' } }));
    const report = policyOf(await ask(apiPaths.report(id, 'customer')));
    expect(report.get('frame-ancestors')).toBe("'self'");
    expect(report.get('default-src')).toBe("'none'");
    expect(report.has('script-src')).toBe(false);
  });

  it('is not told by a link which job was open', async () => {
    expect((await ask('/')).headers.get('referrer-policy')).toBe('no-referrer');
  });
});

it('a body of 17 MB is refused before it is read; one of 15 MB is not too large', async () => {
  const { id } = given(await store.createJob({ deck: { name: 'd' } }));
  const sent = (megabytes: number) =>
    ask(
      apiPaths.captures(id),
      { 'content-type': 'application/json', 'content-length': String(megabytes * 2 ** 20) },
      'POST',
      '{}',
    );
  expect((await sent(17)).status).toBe(413);
  expect((await sent(15)).status).toBe(400);
});

it('the socket is open on loopback and on no other address of this machine', async () => {
  const listening = await listen(new Hono(), 0);
  const reached = (host: string) =>
    new Promise<boolean>((resolve) => {
      const socket = connect({ port: listening.port, host, timeout: 2000 });
      const end = (open: boolean) => () => {
        socket.destroy();
        resolve(open);
      };
      socket.once('connect', end(true)).once('error', end(false)).once('timeout', end(false));
    });
  const others = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ internal, family }) => !internal && family === 'IPv4')
    .map(({ address }) => address);
  expect(await reached('127.0.0.1')).toBe(true);
  // Linux gives the whole of 127/8 to this machine
  for (const host of ['127.0.0.2', ...others]) expect(await reached(host), host).toBe(false);
  await listening.close();
});
