/** Opens a socket: that of the bench on loopback and nowhere else, that of the second screen at the one address it is told. */
import type { Server } from 'node:http';
import { createAdaptorServer } from '@hono/node-server';
import type { Hono } from 'hono';

/** Where the bench page is when nobody says otherwise. */
export const USUAL_PORT = 4133;
/** Ports tried after a usual one that is taken. */
const NEXT_PORTS = 9;
const LOOPBACK = '127.0.0.1';
/** How long answers under way may take once the server closes, ms. */
const GRACE_MS = 500;

export interface Listening {
  readonly port: number;
  readonly address: string;
  /** lets answers under way finish, then closes */
  close(): Promise<void>;
}

export class PortError extends Error {}

/** As it is written in an address: IPv6 in brackets (RFC 3986). @param host an IP address */
export const hostInUrl = (host: string): string => (host.includes(':') ? `[${host}]` : host);

/** Where a server listens when nobody names a port. */
export interface Place {
  readonly host: string;
  /** this port or one of the next few */
  readonly usualPort: number;
  /** connections at once; left out: no bound */
  readonly mostConnections?: number;
}

const BENCH: Place = { host: LOOPBACK, usualPort: USUAL_PORT };

function tryPort(server: Server, port: number, host: string): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      const address = server.address();
      resolve(typeof address === 'object' && address !== null ? address.port : port);
    });
  });
}

/**
 * @param wanted port that the person asked for: this one or none, 0 for any free one; left out, the usual one or one of
 *   the next few
 * @throws PortError with one sentence
 */
export async function listen(app: Hono, wanted?: number, place: Place = BENCH): Promise<Listening> {
  const { host, usualPort, mostConnections } = place;
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  if (mostConnections !== undefined) server.maxConnections = mostConnections;
  const first = wanted ?? usualPort;
  const last = wanted === undefined ? usualPort + NEXT_PORTS : wanted;
  let port: number | undefined;
  for (let next = first; next <= last && port === undefined; next++) {
    try {
      port = await tryPort(server, next, host);
    } catch (error) {
      const code = (error as { code?: string }).code;
      if (code === 'EACCES') {
        throw new PortError(
          `Port ${next} may not be used by this account; another was expected, such as ${usualPort}.`,
        );
      }
      if (code !== 'EADDRINUSE') throw error;
    }
  }
  if (port === undefined) {
    throw new PortError(
      first === last
        ? `Port ${first} is taken by another program; name another with --port.`
        : `Ports ${first} to ${last} are all taken by other programs; name another with --port.`,
    );
  }
  return {
    port,
    address: `http://${hostInUrl(host)}:${port}/`,
    close: () =>
      new Promise((resolve) => {
        const grace = setTimeout(() => server.closeAllConnections(), GRACE_MS);
        server.close(() => {
          clearTimeout(grace);
          resolve();
        });
        server.closeIdleConnections();
      }),
  };
}
