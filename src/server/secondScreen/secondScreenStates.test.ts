/** What the bench page is told of the second screen, step by step. */
import { once } from 'node:events';
import { type IncomingMessage, request } from 'node:http';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { SecondFigure, SecondState } from '../../core/job/api.ts';
import { pageFile } from '../pageFiles.ts';
import { Refusal } from '../refusal.ts';
import { qrPath } from './qrPath.ts';
import { SecondScreen, type SecondScreenOptions } from './secondScreen.ts';

const HERE = { address: '127.0.0.1', name: 'lan' };
const ALSO = { address: '127.0.0.2', name: 'other' };
const page = new Map([['/index.html', pageFile('/index.html', new TextEncoder().encode('<!doctype html>'))]]);
let clock: number;
let drawn: number;
let screen: SecondScreen;
const made = (more: Partial<SecondScreenOptions> = {}) =>
  new SecondScreen({
    page,
    addresses: () => [HERE, ALSO],
    now: () => clock,
    drawCode: () => String(++drawn).padStart(6, '0'),
    ...more,
  });
beforeEach(() => {
  [clock, drawn] = [0, 0];
  screen = made();
});
afterEach(() => screen.turnOff());

type On = Extract<SecondState, { on: true }>;
const state = () => screen.state as On;
/** By a connection of its own: the port is the same in each test, and none of an earlier one may be used again. */
const ask = (path: string, headers: Record<string, string>, body?: string): Promise<IncomingMessage> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(state().url);
    const method = body === undefined ? 'GET' : 'POST';
    const sent = request({ host: hostname, port, path, method, headers, agent: false }, resolve);
    sent.on('error', reject);
    sent.end(body);
  });
async function enter(code: string): Promise<{ token: string }> {
  const answer = await ask('/enter', { 'content-type': 'application/json' }, JSON.stringify({ code }));
  let text = '';
  for await (const bytes of answer) text += bytes;
  return JSON.parse(text);
}
const figures = (token: string) => ask('/figures', { authorization: `Bearer ${token}` });
const first = async (answer: IncomingMessage): Promise<string> => String((await once(answer, 'data'))[0]);
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000, interval: 10 });

/** The states that a watching page was told so far. */
function watching() {
  const told: SecondState[] = [];
  const reader = (screen.watch().body as ReadableStream<Uint8Array>).getReader();
  const heard = { told, over: false, end: () => reader.cancel() };
  void (async () => {
    for (;;) {
      const { value, done } = await reader.read();
      if (done) break;
      for (const [, data] of new TextDecoder().decode(value).matchAll(/event: state\ndata: (.*)\n\n/g))
        told.push(JSON.parse(data));
    }
    heard.over = true;
  })();
  return heard;
}

const shown: SecondFigure = {
  listening: true,
  band: 'left only',
  figure: null,
  turnDeg: null,
  says: 'Listening.',
  good: false,
  notes: [],
  ageS: 0,
};

it('turned on it tells its address, the others, a code for three minutes and where to point a camera', async () => {
  const on = (await screen.turnOn()) as On;
  expect(on).toEqual({
    on: true,
    url: expect.stringMatching(/^http:\/\/127\.0\.0\.1:\d+\/$/),
    address: '127.0.0.1',
    addresses: [HERE, ALSO],
    code: '000001',
    codeForS: 180,
    qr: qrPath(on.url),
    device: 'none',
  });
  clock = 60_000;
  expect(state().codeForS).toBe(120);
});

it('turned on again it has a new code, at the address that is asked for', async () => {
  await screen.turnOn();
  screen = await screen.turnOff().then(() => made({ addresses: () => [ALSO, HERE] }));
  const on = (await screen.turnOn(HERE.address)) as On;
  expect([on.address, on.code, on.addresses]).toEqual(['127.0.0.1', '000002', [ALSO, HERE]]);
  await expect(screen.turnOn('10.9.9.9')).rejects.toThrow(Refusal);
  expect(screen.state).toEqual({ on: false, why: 'The second screen is off.' });
});

it('without its page or a network it stays off, with the reason', async () => {
  screen = made({ page: new Map() });
  await expect(screen.turnOn()).rejects.toThrow(Refusal);
  screen = made({ addresses: () => [] });
  await expect(screen.turnOn()).rejects.toThrow(Refusal);
  expect(screen.state.on).toBe(false);
  await screen.turnOff();
  expect(screen.state).toEqual({ on: false, why: 'The second screen is off.' });
});

it('a device is told of as none, connected, away and none again', async () => {
  await screen.turnOn();
  const page = watching();
  const { token } = await enter('000001');
  const device = await figures(token);
  device.on('error', () => undefined).resume();
  await soon(() => page.told.map((one) => (one as On).device)).toEqual(['none', 'away', 'connected']);
  expect(page.told.map((one) => (one as On).code)).toEqual(['000001', null, null]);
  expect((page.told[2] as On).codeForS).toBe(0);
  screen.renewCode();
  await soon(() => page.told.length).toBe(4);
  expect(page.told[3]).toMatchObject({ device: 'none', code: '000002', codeForS: 180 });
  expect((await figures(token)).statusCode).toBe(401);
  await screen.turnOff();
  await soon(() => page.over).toBe(true);
  expect(page.told.at(-1)).toEqual({ on: false, why: 'The second screen is off.' });
});

it('a device that goes is away, and comes back with what was shown last', async () => {
  await screen.turnOn();
  watching();
  const { token } = await enter('000001');
  screen.show(shown);
  const device = await figures(token);
  expect(await first(device)).toBe(`event: figure\ndata: ${JSON.stringify(shown)}\n\n`);
  await soon(() => state().device).toBe('connected');
  device.on('error', () => undefined).destroy();
  await soon(() => state().device).toBe('away');
});

it('what is shown while it is off is forgotten, and so is what was shown before it was turned off', async () => {
  screen.show(shown);
  await screen.turnOn();
  watching();
  const heardFirst = async (code: string) => {
    const { token } = await enter(code);
    const device = await figures(token);
    device.on('error', () => undefined);
    screen.show({ ...shown, says: 'Now.' });
    return first(device);
  };
  expect(await heardFirst('000001')).toContain('Now.');
  await screen.turnOn();
  watching();
  expect(await heardFirst('000002')).toContain('Now.');
});

it('a code that ran out is replaced, and the page told of the new one', async () => {
  let now = 0;
  screen = made({ now: () => now });
  await screen.turnOn();
  now = 179_990;
  const page = watching();
  screen.renewCode();
  now += 179_990;
  // told anew with ten milliseconds left
  page.told.length = 0;
  await enter('999999');
  await soon(() => page.told.length).toBeGreaterThan(0);
  now += 20;
  await soon(() => (page.told.at(-1) as On).code).toBe('000003');
});

it('it goes off a while after the last page that watched it went, and not while another one watches', async () => {
  screen = made({ unwatchedMs: 40 });
  await screen.turnOn();
  const [one, two] = [watching(), watching()];
  await one.end();
  await new Promise((resolve) => setTimeout(resolve, 120));
  expect(screen.state.on).toBe(true);
  await two.end();
  await soon(() => screen.state.on).toBe(false);
  await screen.turnOn();
  // nobody ever watched
  await soon(() => screen.state).toEqual({
    on: false,
    why: 'The second screen turned itself off: the page that turned it on was closed.',
  });
});
