/**
 * Which account of this machine is at the other end of a connection over loopback. Linux lists every socket with its owner in
 * /proc/net; elsewhere nobody is known, and the key must be shown.
 */
import { readFileSync } from 'node:fs';

/** Both tables: a browser may reach 127.0.0.1 by a socket of the newer kind. */
const TABLES = ['/proc/net/tcp', '/proc/net/tcp6'];

const hexPort = (port: number): string => port.toString(16).toUpperCase().padStart(4, '0');

/**
 * @param table text of /proc/net/tcp or tcp6: columns sl, local, remote, state, queues, timer, retransmits, uid …
 * @returns the account (uid) that owns the socket from `from` to `to`, null where there is none
 */
export function ownerIn(table: string, from: number, to: number): number | null {
  for (const line of table.split('\n').slice(1)) {
    const [, local = '', remote = '', , , , , uid] = line.trim().split(/\s+/);
    if (local.endsWith(`:${hexPort(from)}`) && remote.endsWith(`:${hexPort(to)}`)) return Number(uid);
  }
  return null;
}

/** @param from the client's port @param to ours; null where this machine does not tell */
export function accountOfPeer(from: number | undefined, to: number): number | null {
  if (from === undefined) return null;
  for (const table of TABLES) {
    try {
      const owner = ownerIn(readFileSync(table, 'latin1'), from, to);
      if (owner !== null) return owner;
    } catch {
      // no such table on this machine
    }
  }
  return null;
}

/** Whether the one who asks is this account. @param own its uid; undefined where accounts have none */
export const isOwnAccount = (own: number | undefined, from: number | undefined, to: number): boolean =>
  own !== undefined && accountOfPeer(from, to) === own;
