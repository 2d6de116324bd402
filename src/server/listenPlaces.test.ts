import { connect, createServer, type Server } from 'node:net';
import { Hono } from 'hono';
import { afterEach, expect, it } from 'vitest';
import { hostInUrl, type Listening, listen, PortError } from './listen.ts';
import { isOwnAccount } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

/** A port with nine more behind it, of which `taken` of the first are taken. */
async function ports(taken: number): Promise<number> {
  for (let first = 20_000 + (process.pid % 20_000); ; first += 10) {
    const servers: Server[] = [];
    try {
      for (let next = first; next < first + 10; next++) servers.push(await occupied(next));
      for (const server of servers.splice(taken)) await new Promise((resolve) => server.close(resolve));
      open.push(...servers);
      return first;
    } catch {
      for (const server of servers) server.close();
    }
  }
}
const occupied = (port: number): Promise<Server> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve(server));
  });
const listening = async (...how: Parameters<typeof listen>): Promise<Listening> => {
  const one = await listen(...how);
  open.push(one);
  return one;
};
const app = new Hono();

it.each([0, 1, 9])('with %i of the usual port and the nine behind it taken, the next one is taken', async (taken) => {
  const usualPort = await ports(taken);
  const { port, address } = await listening(app, undefined, { host: '127.0.0.1', usualPort });
  expect([port, address]).toEqual([usualPort + taken, `http://127.0.0.1:${usualPort + taken}/`]);
});

it('where all ten are taken that is said with both ends', async () => {
  const usualPort = await ports(10);
  const error = await listen(app, undefined, { host: '127.0.0.1', usualPort }).catch((reason: unknown) => reason);
  expect(error).toBeInstanceOf(PortError);
  expect((error as Error).message).toBe(
    `Ports ${usualPort} to ${usualPort + 9} are all taken by other programs; name another with --port.`,
  );
});

it('what is no taken port is not tried over: an address that is not of this machine', async () => {
  const error = await listen(app, undefined, { host: '192.0.2.1', usualPort: 4133 }).catch((reason: unknown) => reason);
  expect(error).not.toBeInstanceOf(PortError);
  expect((error as { code?: string }).code).toBe('EADDRNOTAVAIL');
});

it('an address of the newer kind stands in brackets', () => {
  expect([hostInUrl('127.0.0.1'), hostInUrl('fd00::20')]).toEqual(['127.0.0.1', '[fd00::20]']);
});

it('beyond the most connections the next one is closed', async () => {
  const { port } = await listening(app, 0, { host: '127.0.0.1', usualPort: 1, mostConnections: 1 });
  const joined = () =>
    new Promise<string>((resolve) => {
      const socket = connect(port, '127.0.0.1');
      open.push({ close: () => socket.destroy() });
      socket.once('close', () => resolve('closed'));
      socket.once('error', () => resolve('closed'));
      setTimeout(() => resolve('open'), 150);
    });
  expect(await joined()).toBe('open');
  expect(await joined()).toBe('closed');
});

it('an answer under way is waited for half a second at the most', async () => {
  let asked = (): void => undefined;
  const reached = new Promise<void>((resolve) => {
    asked = resolve;
  });
  const hanging = new Hono().get('/', () => {
    asked();
    return new Promise<Response>(() => undefined);
  });
  const { address, close } = await listen(hanging, 0);
  const answer = fetch(address).then(
    () => 'answered',
    () => 'cut',
  );
  await reached;
  const from = performance.now();
  await close();
  expect(performance.now() - from).toBeGreaterThan(400);
  expect(await answer).toBe('cut');
});

it('an account is known by both ends of its connection, and by none is nobody', () => {
  const [from, to] = [
    { address: '127.0.0.1', port: 1 },
    { address: '127.0.0.1', port: 2 },
  ];
  expect([isOwnAccount(0, from, to), isOwnAccount(undefined, from, to)]).toEqual([false, false]);
  expect([isOwnAccount(0, undefined, to), isOwnAccount(0, from, undefined)]).toEqual([false, false]);
});
