/**
 * Who is let in to what is stored: whoever knows the key that lies beside the store, readable by its owner only. A browser
 * shows it once, in the address that `serve` prints, and has it in a cookie from then on; a program sends it along. Another
 * account on this machine reaches the port, and gets the page's own files and nothing else.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { chmodSync, closeSync, fsyncSync, openSync, readFileSync, writeSync } from 'node:fs';

const KEY = /^[A-Za-z0-9_-]{43}$/;
/** How long the address that a browser is started with may be used, once, ms. */
const TICKET_MS = 60_000;

/** An empty file is one that another server is about to write: how often and how long it is waited for. */
const MOST_LOOKS = 20;
const LOOK_MS = 25;

const randomText = (): string => randomBytes(32).toString('base64url');

/** The key's place. @param store path of the store */
export const keyFile = (store: string): string => `${store}.key`;

/** What the file holds; null where there is none. */
function keptText(file: string): string | null {
  try {
    const text = readFileSync(file, 'latin1').trim();
    chmodSync(file, 0o600);
    return text;
  } catch (error) {
    if ((error as { code?: string }).code === 'ENOENT') return null;
    throw error;
  }
}

/** @param flags `wx` where nothing may stand there */
function writeKey(file: string, flags: 'wx' | 'w'): string {
  const key = randomText();
  const handle = openSync(file, flags, 0o600);
  writeSync(handle, `${key}\n`);
  fsyncSync(handle);
  closeSync(handle);
  return key;
}

/**
 * The key of a store, made where there is none: the same over restarts and for every server on that store, so that windows
 * which are open stay let in. A file that holds no key is kept and stops the server.
 *
 * @throws Error of the file system, or one sentence where the file holds something else
 */
export function keyOf(store: string): string {
  if (store === ':memory:') return randomText();
  const file = keyFile(store);
  for (let looked = 0; ; looked++) {
    const text = keptText(file);
    if (text === null) {
      try {
        return writeKey(file, 'wx');
      } catch (error) {
        if ((error as { code?: string }).code !== 'EEXIST') throw error;
        // another server of this store makes it at this moment
      }
    } else if (KEY.test(text)) return text;
    else if (text !== '') throw new Error(`${file} holds no key; move it away, and a new one is made.`);
    else if (looked < MOST_LOOKS) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, LOOK_MS);
    // begun and never written: whoever made it is gone
    else return writeKey(file, 'w');
  }
}

export interface Asking {
  /** the header `Authorization` */
  readonly authorization: string | undefined;
  /** the header `Cookie` */
  readonly cookie: string | undefined;
}

export interface Door {
  letsIn(asking: Asking, port: number): boolean;
  /** the key itself, or a ticket that was not used yet */
  opens(word: string): boolean;
  /** a word for the address that a browser is started with: others may read it in the list of programs, and it is used up then */
  ticket(): string;
  /** for the answer that lets a browser in */
  cookie(port: number): string;
}

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
/** Takes as long for a near miss as for any other. */
const same = (a: string, b: string): boolean => timingSafeEqual(digest(a), digest(b));

/** A cookie belongs to a host whatever its port, so the port stands in its name. */
const cookieName = (port: number): string => `platterside-${port}`;
const YEAR_S = 365 * 86_400;

/** @param now ms, for the life of a ticket */
export function doorWith(key: string, now: () => number = Date.now): Door {
  const tickets = new Map<string, number>();
  return {
    letsIn({ authorization = '', cookie = '' }, port) {
      const [, bearer = ''] = /^Bearer ([A-Za-z0-9_-]+)$/i.exec(authorization) ?? [];
      const name = `${cookieName(port)}=`;
      const carried = cookie.split(/; */).find((one) => one.startsWith(name));
      return same(bearer, key) || same(carried?.slice(name.length) ?? '', key);
    },
    opens(word) {
      const until = tickets.get(word);
      tickets.delete(word);
      return same(word, key) || (until !== undefined && now() <= until);
    },
    ticket() {
      const word = randomText();
      tickets.set(word, now() + TICKET_MS);
      return word;
    },
    cookie: (port) => `${cookieName(port)}=${key}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${YEAR_S}`,
  };
}
