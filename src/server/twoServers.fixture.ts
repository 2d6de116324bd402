/** For tests: two servers, as on two benches, on one store in PostgreSQL. */
import { startCluster } from '../store/cluster.fixture.ts';
import { openStore } from '../store/store.ts';
import { createApp } from './app.ts';
import { doorWith } from './door.ts';

const KEY = 'k'.repeat(43);
const HOST = '127.0.0.1:4133';

export type TwoServers = Awaited<ReturnType<typeof openTwoServers>>;

/** @param onFailure of either server */
export async function openTwoServers(onFailure?: (error: unknown) => void) {
  const cluster = await startCluster();
  const place = await cluster.empty();
  const stores = [await openStore(place, undefined, 'one'), await openStore(place, undefined, 'two')];
  const door = doorWith(KEY);
  const servers = stores.map((store) =>
    createApp({ store, page: new Map(), version: '0', port: () => 4133, door, reportOf: () => '', onFailure }),
  );
  const headers = { host: HOST, authorization: `Bearer ${KEY}`, 'content-type': 'application/json' };
  /** @param server 0 or 1 */
  const request = (server: number, path: string, init: { readonly method?: string; readonly body?: string } = {}) =>
    servers[server].request(`http://${HOST}${path}`, { headers, ...init });
  return {
    cluster,
    request,
    async ask(server: number, method: string, path: string, body?: unknown) {
      const sent = body === undefined ? {} : { body: JSON.stringify(body) };
      const answer = await request(server, path, { method, ...sent });
      return { status: answer.status, body: await answer.json() };
    },
    async close(): Promise<void> {
      for (const store of stores) await store.close();
      await cluster.end();
    },
  };
}
