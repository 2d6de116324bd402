import { beforeEach, expect, it } from 'vitest';
import { pageFile } from '../pageFiles.ts';
import type { Entered } from './oneDevice.ts';
import { screenApp } from './screenApp.ts';

const HOST = '192.168.1.20:4143';
const TOKEN = 't'.repeat(43);
const bytes = (text: string) => new TextEncoder().encode(text);
const page = new Map([
  ['/index.html', pageFile('/index.html', bytes('<!doctype html>'))],
  ['/screen.js', pageFile('/screen.js', bytes('export {}'))],
]);
let entered: Entered;
let codes: string[];
let tokens: string[];
beforeEach(() => {
  entered = { token: TOKEN };
  [codes, tokens] = [[], []];
});

const app = screenApp({
  page,
  host: () => HOST,
  enter: (code) => {
    codes.push(code);
    return entered;
  },
  figures: (token, headers) => {
    tokens.push(token);
    return token === TOKEN ? new Response('figures', { headers }) : null;
  },
});
const ask = (path: string, headers: Record<string, string> = {}, init: RequestInit = {}) =>
  app.request(`http://${HOST}${path}`, { ...init, headers: { host: HOST, ...headers } });
const enter = (body: string, headers: Record<string, string> = {}) =>
  ask('/enter', { 'content-type': 'application/json', ...headers }, { method: 'POST', body });

it.each([
  [{}, 200],
  [{ host: HOST.toUpperCase() }, 200],
  [{ origin: `http://${HOST}` }, 200],
  [{ host: '192.168.1.20' }, 403],
  [{ host: 'bench.example:4143' }, 403],
  [{ origin: `https://${HOST}` }, 403],
  [{ origin: 'http://bench.example' }, 403],
  [{ origin: 'null' }, 403],
])('asked with %o it answers %i', async (headers, status) => {
  const answer = await ask('/', headers as Record<string, string>);
  expect([answer.status, await answer.text()]).toEqual([status, status === 200 ? '<!doctype html>' : '']);
  expect(answer.headers.get('cache-control')).toBe('no-store');
});

it('its headers let it run its own scripts and nothing else, and nobody frame it', async () => {
  const { headers } = await ask('/');
  expect(headers.get('content-security-policy')).toBe(
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  );
  expect(headers.get('x-content-type-options')).toBe('nosniff');
  expect(headers.get('referrer-policy')).toBe('no-referrer');
  expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
  expect(headers.get('set-cookie')).toBeNull();
});

it('a code that was entered is answered with its token, or with why not', async () => {
  const right = await enter('{"code":"123456"}');
  expect([right.status, await right.json()]).toEqual([200, { token: TOKEN }]);
  for (const [refused, status] of [
    ['wrong', 403],
    ['too-fast', 429],
    ['over', 410],
  ] as const) {
    entered = { refused };
    const answer = await enter('{"code":"654321"}');
    expect([answer.status, await answer.json()]).toEqual([status, { refused }]);
  }
  expect(codes).toEqual(['123456', '654321', '654321', '654321']);
});

it('a body that is large, none or another is refused before any code is tried', async () => {
  expect((await enter(`{"code":"${'1'.repeat(300)}"}`, { 'content-length': '312' })).status).toBe(413);
  expect((await enter('{"code":')).status).toBe(400);
  expect((await enter('{"code":"123456"}', { 'content-type': 'text/plain' })).status).toBe(415);
  expect((await ask('/enter')).status).toBe(404);
  expect(codes).toEqual([]);
});

it('figures go to whoever shows the token in the header, written as it is', async () => {
  const answer = await ask('/figures', { authorization: `Bearer ${TOKEN}` });
  expect([answer.status, await answer.text(), answer.headers.get('x-content-type-options')]).toEqual([
    200,
    'figures',
    'nosniff',
  ]);
  for (const authorization of [
    '',
    TOKEN,
    `Bearer ${TOKEN}x`,
    `Bearer ${TOKEN.slice(1)}`,
    `xBearer ${TOKEN}`,
    `Basic ${TOKEN}`,
  ]) {
    const refused = await ask('/figures', authorization === '' ? {} : { authorization });
    expect([refused.status, await refused.text()], authorization).toEqual([401, '']);
  }
  expect(tokens.filter((token) => token !== '')).toEqual([TOKEN]);
});

it('its files are given with their types; everything else is not there, and what fails tells nothing', async () => {
  const script = await ask('/screen.js');
  expect([script.status, script.headers.get('content-type')]).toEqual([200, 'text/javascript; charset=utf-8']);
  for (const path of ['/gone.js', '/jobs', '/api/jobs']) {
    const answer = await ask(path);
    expect([answer.status, await answer.text()], path).toEqual([404, '']);
  }
  expect((await ask('/', {}, { method: 'POST' })).status).toBe(404);
  const broken = screenApp({
    page,
    host: () => HOST,
    enter: () => {
      throw new Error('secret');
    },
    figures: () => null,
  });
  const answer = await broken.request(`http://${HOST}/enter`, {
    method: 'POST',
    headers: { host: HOST, 'content-type': 'application/json' },
    body: '{"code":"123456"}',
  });
  expect([answer.status, await answer.text()]).toEqual([500, '']);
});
