import { existsSync } from 'node:fs';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { countingOrigin } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { createApp } from './app.ts';
import { doorWith } from './door.ts';
import { type Listening, listen } from './listen.ts';
import { pageFile } from './pageFiles.ts';
import { ownerIn } from './peer.ts';

const end = (port: number, address = '127.0.0.1') => ({ address, port });
const TABLE = `  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode
   0: 0100007F:1025 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 51 1 0 100 0 0 10 0
   1: 0100007F:1025 0100007F:C350 01 00000000:00000000 00:00000000 00000000  1000        0 52 1 0 20 4 30 10 -1
   2: 0100007F:C350 0100007F:1025 01 00000000:00000000 00:00000000 00000000  1001        0 53 1 0 20 4 30 10 -1
`;

it('the owner of the client’s end is told, not that of the server’s', () => {
  expect(ownerIn(TABLE, end(50_000), end(4133))).toBe(1001);
  expect(ownerIn(TABLE, end(4133), end(50_000))).toBe(1000);
  expect(ownerIn(TABLE, end(50_001), end(4133))).toBeNull();
  expect(ownerIn('', end(50_000), end(4133))).toBeNull();
});

it('a stranger who takes the port of one of ours at another address of this machine is told from him', () => {
  const both = `${TABLE}   3: 0200007F:C350 0100007F:1025 01 00000000:00000000 00:00000000 00000000  1002        0 54 1 0 20 4 30 10 -1
`;
  expect(ownerIn(both, end(50_000), end(4133))).toBe(1001);
  expect(ownerIn(both, end(50_000, '127.0.0.2'), end(4133))).toBe(1002);
  expect(ownerIn(TABLE, end(50_000, '127.0.0.2'), end(4133))).toBeNull();
});

it('a socket of the newer kind is found too, and no part of a longer address is', () => {
  const line = (local: string) => `head
   0: ${local}:C350 0000000000000000FFFF00000100007F:1025 01 00000000:00000000 00:00000000 00000000  1001        0 53 1
`;
  expect(ownerIn(line('0000000000000000FFFF00000100007F'), end(50_000), end(4133))).toBe(1001);
  expect(ownerIn(line('B80D01200000000067452301' + '0100007F'), end(50_000), end(4133))).toBeNull();
});

const KEY = 'k'.repeat(43);
const own = process.getuid?.() ?? 0;
let store: Store;
let listening: Listening | undefined;
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
});
afterEach(async () => {
  await listening?.close();
  await store.close();
});

/** What this account's client is handed with the page by a server of `account`. */
async function cookieFrom(account: number): Promise<string | null> {
  const page = new Map([['/index.html', pageFile('/index.html', new TextEncoder().encode('<!doctype html>'))]]);
  const app = createApp({
    store,
    page,
    version: '0',
    port: () => listening?.port ?? 0,
    reportOf: () => '',
    door: doorWith(KEY),
    account,
  });
  listening = await listen(app, 0);
  const answer = await fetch(listening.address);
  expect(answer.status).toBe(200);
  return answer.headers.get('set-cookie');
}

it('this account’s browser gets the key with the page, where the machine lists its connections', async () => {
  const isListed = existsSync('/proc/net/tcp');
  expect(await cookieFrom(own)).toEqual(isListed ? expect.stringContaining(`=${KEY}; `) : null);
});

it('another account gets the page alone', async () => {
  expect(await cookieFrom(own + 1)).toBeNull();
});
