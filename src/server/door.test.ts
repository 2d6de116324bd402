import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { apiErrorSchema } from '../core/job/api.ts';
import { countingOrigin, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { createApp } from './app.ts';
import { type Door, doorWith, keyFile, keyOf } from './door.ts';
import { pageFile } from './pageFiles.ts';

const KEY = 'k'.repeat(43);
let time = 0;
let door: Door;
let store: Store;
let app: ReturnType<typeof createApp>;
beforeEach(async () => {
  time = 0;
  door = doorWith(KEY, () => time);
  store = await openStore(':memory:', countingOrigin());
  const page = new Map([['/index.html', pageFile('/index.html', new TextEncoder().encode('<!doctype html>'))]]);
  app = createApp({ store, page, version: '0', port: () => 4133, reportOf: () => '', door });
});
afterEach(() => store.close());

const ask = (path: string, headers: Record<string, string> = {}, body?: unknown) =>
  app.request(`http://127.0.0.1:4133${path}`, {
    method: body === undefined ? 'GET' : 'POST',
    headers: { host: '127.0.0.1:4133', 'content-type': 'application/json', ...headers },
    body: body === undefined ? undefined : JSON.stringify(body),
  });
const cookieOf = (answer: Response): string => (answer.headers.get('set-cookie') ?? '').split(';')[0];

describe('who does not know the key', () => {
  it('gets the page’s own files, who it is, and nothing that is stored, by no method', async () => {
    expect((await ask('/')).status).toBe(200);
    expect((await ask('/api/health')).status).toBe(200);
    for (const path of [
      '/api/jobs',
      '/api/jobs.csv',
      '/api/last',
      '/api/due',
      '/api/jobs/x/report',
      '/api/nowhere',
      '/api/shop',
    ]) {
      const answer = await ask(path);
      expect([path, answer.status]).toEqual([path, 401]);
      expect(apiErrorSchema.parse(await answer.json()).code).toBe('no-key');
    }
    expect((await ask('/api/jobs', {}, { deck: { name: 'x' } })).status).toBe(401);
    expect((await ask('/api/import', {}, {})).status).toBe(401);
    expect((await store.jobs()).jobs).toEqual([]);
  });

  it.each([
    [{ authorization: 'Bearer' }],
    [{ authorization: `Bearer ${KEY}x` }],
    [{ authorization: `Basic ${KEY}` }],
    [{ cookie: `platterside-4133=${'k'.repeat(42)}` }],
    [{ cookie: `platterside-4134=${KEY}` }],
    [{ cookie: `other=platterside-4133=${KEY}` }],
  ])('is not let in by %j', async (headers) => {
    expect((await ask('/api/jobs', headers)).status).toBe(401);
  });
});

describe('who knows the key', () => {
  it('is let in as a program, and as a browser by the cookie of the printed address, which does not keep the key', async () => {
    expect((await ask('/api/jobs', { authorization: `Bearer ${KEY}` })).status).toBe(200);
    const answer = await ask(`/jobs?key=${KEY}`);
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/jobs']);
    expect(answer.headers.get('set-cookie')).toContain('HttpOnly; SameSite=Strict');
    expect((await ask('/api/jobs', { cookie: `a=b; ${cookieOf(answer)}` })).status).toBe(200);
    const wrong = await ask('/jobs?key=wrong');
    expect([wrong.status, cookieOf(wrong)]).toEqual([303, '']);
    expect((await ask(`//evil.example/x?key=${KEY}`)).headers.get('location')).not.toMatch(/^\/\//);
  });

  it('may type it', async () => {
    expect((await ask('/api/enter', {}, { key: 'no' })).status).toBe(401);
    const answer = await ask('/api/enter', {}, { key: ` ${KEY} ` });
    expect(answer.status).toBe(204);
    expect((await ask('/api/jobs', { cookie: cookieOf(answer) })).status).toBe(200);
  });
});

it('a ticket lets one browser in, once, for a minute', async () => {
  const ticket = door.ticket();
  expect(cookieOf(await ask(`/?key=${ticket}`))).toBe(`platterside-4133=${KEY}`);
  expect(cookieOf(await ask(`/?key=${ticket}`))).toBe('');
  const late = door.ticket();
  time = 60_001;
  expect(cookieOf(await ask(`/?key=${late}`))).toBe('');
});

describe('the key beside the store', () => {
  it('is made once, long and its owner’s alone; a file that is none is kept', () => {
    const folder = scratchFolder();
    const path = join(folder.path, 'bench.sqlite');
    const key = keyOf(path);
    expect(key).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(keyOf(path)).toBe(key);
    expect(statSync(keyFile(path)).mode & 0o777).toBe(0o600);
    writeFileSync(keyFile(path), 'a letter');
    expect(() => keyOf(path)).toThrow('holds no key; move it away, and a new one is made.');
    expect(readFileSync(keyFile(path), 'utf8')).toBe('a letter');
    // one that was begun when the power went
    writeFileSync(keyFile(path), '');
    const again = keyOf(path);
    expect(again).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(keyOf(path)).toBe(again);
    expect(keyOf(':memory:')).not.toBe(keyOf(':memory:'));
    expect(existsSync(':memory:.key')).toBe(false);
    folder.remove();
  });
});
