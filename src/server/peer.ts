/**
 * Which account of this machine is at the other end of a connection over loopback. Linux lists every socket with its owner in
 * /proc/net; elsewhere nobody is known, and the key must be shown.
 */
import { readFileSync } from 'node:fs';

/** Both tables: a browser may reach 127.0.0.1 by a socket of the newer kind. */
const TABLES = ['/proc/net/tcp', '/proc/net/tcp6'];

/** One end of a connection; all of 127.0.0.0/8 is this machine, so a port alone names none. */
export interface End {
  /** e.g. 127.0.0.1 */
  readonly address: string;
  readonly port: number;
}

const hex = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');

/** As the tables write it: the address as the processor keeps it, here the little-endian way; on others no line matches. */
const written = ({ address, port }: End): string =>
  `${address
    .split('.')
    .toReversed()
    .map((part) => hex(Number(part), 2))
    .join('')}:${hex(port, 4)}`;

/** A socket of the newer kind writes the same address behind twelve bytes of its own. */
const isThat = (found: string, end: string): boolean => found === end || found === `0000000000000000FFFF0000${end}`;

/**
 * @param table text of /proc/net/tcp or tcp6: columns sl, local, remote, state, queues, timer, retransmits, uid …
 * @returns the account (uid) that owns the socket from `from` to `to`, null where there is none
 */
export function ownerIn(table: string, from: End, to: End): number | null {
  const [client, server] = [from, to].map(written);
  for (const line of table.split('\n').slice(1)) {
    const [, local = '', remote = '', , , , , uid] = line.trim().split(/\s+/);
    if (isThat(local, client) && isThat(remote, server)) return Number(uid);
  }
  return null;
}

/** @param from the client's end @param to ours; null where this machine does not tell */
function accountOfPeer(from: End | undefined, to: End | undefined): number | null {
  if (from === undefined || to === undefined) return null;
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
export const isOwnAccount = (own: number | undefined, from: End | undefined, to: End | undefined): boolean =>
  own !== undefined && accountOfPeer(from, to) === own;
