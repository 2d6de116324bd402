/** Opens the socket, on loopback and nowhere else. */
import type { Server } from 'node:http';
import { createAdaptorServer } from '@hono/node-server';
import type { Hono } from 'hono';

/** Where the bench page is when nobody says otherwise. */
export const USUAL_PORT = 4133;
/** Ports tried after a usual one that is taken. */
const NEXT_PORTS = 9;
const HOST = '127.0.0.1';
/** How long answers under way may take once the server closes, ms. */
const GRACE_MS = 500;

export interface Listening {
  readonly port: number;
  readonly address: string;
  /** lets answers under way finish, then closes */
  close(): Promise<void>;
}

export class PortError extends Error {}

function tryPort(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, HOST, () => {
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
export async function listen(app: Hono, wanted?: number): Promise<Listening> {
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  const first = wanted ?? USUAL_PORT;
  const last = wanted === undefined ? USUAL_PORT + NEXT_PORTS : wanted;
  let port: number | undefined;
  for (let next = first; next <= last && port === undefined; next++) {
    try {
      port = await tryPort(server, next);
    } catch (error) {
      const code = (error as { code?: string }).code;
      if (code === 'EACCES') {
        throw new PortError(
          `Port ${next} may not be used by this account; another was expected, such as ${USUAL_PORT}.`,
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
    address: `http://${HOST}:${port}/`,
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
