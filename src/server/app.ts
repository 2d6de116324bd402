/** The whole of the server's answers, without a socket: `app.request(…)` in tests, `listen` at the bench. */
import type { HttpBindings } from '@hono/node-server';
import { type Context, Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { API_SCHEMA, apiPaths, enterSchema, type Health } from '../core/job/api.ts';
import { MOST_BUNDLE_BYTES } from '../core/job/bundle.ts';
import type { Store } from '../store/store.ts';
import { chainRoutes } from './chainRoutes.ts';
import { changeRoutes } from './changeRoutes.ts';
import type { Door } from './door.ts';
import { headersFor } from './headers.ts';
import { historyRoutes } from './historyRoutes.ts';
import { jobRoutes, type ReportOf } from './jobRoutes.ts';
import { fileFor, type PageFiles } from './pageFiles.ts';
import { partRoutes } from './partRoutes.ts';
import { type End, isOwnAccount } from './peer.ts';
import { photographRoutes } from './photographRoutes.ts';
import { Refusal, refusalOf } from './refusal.ts';
import { bodyOf, MOST_BYTES } from './requestBody.ts';
import type { SecondScreen } from './secondScreen/secondScreen.ts';
import { secondScreenRoutes } from './secondScreenRoutes.ts';
import { shopRoutes } from './shopRoutes.ts';
import { transferRoutes } from './transferRoutes.ts';
import { trustOf } from './trust.ts';

export interface AppOptions {
  readonly store: Store;
  readonly page: PageFiles;
  readonly version: string;
  /** port that is listened on; asked at each request, since it is known only once the socket is open */
  readonly port: () => number;
  readonly reportOf: ReportOf;
  /** who is let in to what is stored */
  readonly door: Door;
  /** left out: this server offers none */
  readonly secondScreen?: SecondScreen;
  /** uid whose browsers get the key with the page: that of this program */
  readonly account?: number | undefined;
  /** told of what should not have failed, for the person at the terminal */
  readonly onFailure?: (error: unknown) => void;
}

/** Largest body taken of one who has not been let in yet. */
const MOST_KEY_BYTES = 2 ** 12;

const NO_KEY =
  'The key of the store was expected: open the address that platterside serve prints, or send it as Authorization: Bearer.';

const notBuilt = 'The bench page has not been built yet: run npm run build, then start this server again.';

/** Both ends of the connection, the client's first; none in a test without a socket. */
function endsOf(c: Context): readonly [End | undefined, End | undefined] {
  const socket = (c.env as Partial<HttpBindings> | undefined)?.incoming?.socket;
  const end = (address?: string, port?: number): End | undefined =>
    address === undefined || port === undefined ? undefined : { address, port };
  return [end(socket?.remoteAddress, socket?.remotePort), end(socket?.localAddress, socket?.localPort)];
}

export function createApp({
  store,
  page,
  version,
  port,
  reportOf,
  door,
  secondScreen,
  account = process.getuid?.(),
  onFailure,
}: AppOptions): Hono {
  const app = new Hono();

  app.use(async (c, next) => {
    for (const [name, value] of Object.entries(headersFor('page'))) c.header(name, value);
    const trust = trustOf(
      {
        method: c.req.method,
        path: c.req.path,
        host: c.req.header('host'),
        origin: c.req.header('origin'),
        fetchSite: c.req.header('sec-fetch-site'),
      },
      port(),
    );
    if (!trust.trusted) throw new Refusal('forbidden', trust.why);
    await next();
  });

  app.use('/api/*', async (c, next) => {
    c.header('Cache-Control', 'no-store');
    await next();
  });
  const tooLarge = (maxSize: number) => () => {
    throw new Refusal('too-large', `The body is larger than ${maxSize / 2 ** 20} MB.`);
  };
  const [small, large] = [MOST_BYTES, MOST_BUNDLE_BYTES].map((maxSize) =>
    bodyLimit({ maxSize, onError: tooLarge(maxSize) }),
  );
  app.get('/api/health', (c) =>
    c.json({ ok: true, product: 'platterside', version, schema: API_SCHEMA } satisfies Health),
  );
  app.post(apiPaths.enter, bodyLimit({ maxSize: MOST_KEY_BYTES, onError: tooLarge(MOST_KEY_BYTES) }), async (c) => {
    const { key } = await bodyOf(c.req, enterSchema);
    if (!door.opens(key.trim())) throw new Refusal('no-key', 'That is not the key of this store.');
    return c.body(null, 204, { 'Set-Cookie': door.cookie(port()) });
  });
  app.use('/api/*', async (c, next) => {
    const asking = { authorization: c.req.header('authorization'), cookie: c.req.header('cookie') };
    if (!door.letsIn(asking, port())) throw new Refusal('no-key', NO_KEY);
    await next();
  });
  // a body is read only of one who was let in
  app.use('/api/*', (c, next) => (c.req.path === apiPaths.import ? large : small)(c, next));
  app.route('/api', changeRoutes(store));
  app.route('/api', historyRoutes(store));
  app.route('/api', chainRoutes(store));
  app.route('/api', transferRoutes(store, `platterside ${version}`));
  app.route('/api', jobRoutes(store, reportOf));
  app.route('/api', partRoutes(store));
  app.route('/api', photographRoutes(store));
  app.route('/api', shopRoutes(store));
  if (secondScreen !== undefined) app.route('/api', secondScreenRoutes(secondScreen));
  app.all('/api/*', (c) => {
    throw new Refusal('not-found', `The server has nothing at ${c.req.method} ${c.req.path}.`);
  });

  app.get('*', (c) => {
    const word = c.req.query('key');
    // the address goes on without the key: it is not to stay in the bar
    if (word !== undefined)
      return c.body(null, 303, {
        Location: c.req.path.replace(/^[\\/]+/, '/'),
        ...(door.opens(word) ? { 'Set-Cookie': door.cookie(port()) } : {}),
      });
    if (page.size === 0) return c.text(notBuilt, 503);
    const file = fileFor(page, c.req.path);
    if (file === null) throw new Refusal('not-found', `The server has nothing at ${c.req.path}.`);
    c.header('Cache-Control', file.immutable ? 'public, max-age=31536000, immutable' : 'no-cache');
    c.header('ETag', file.etag);
    if (file.type.startsWith('text/html') && isOwnAccount(account, ...endsOf(c)))
      c.header('Set-Cookie', door.cookie(port()));
    if (c.req.header('if-none-match') === file.etag) return c.body(null, 304);
    return c.body(file.body, 200, { 'Content-Type': file.type });
  });
  app.all('*', (c) => {
    throw new Refusal('not-found', `The server has nothing at ${c.req.method} ${c.req.path}.`);
  });

  app.onError((error, c) => {
    const refusal = refusalOf(error);
    if (refusal.status >= 500) onFailure?.(error);
    return c.json(refusal.body, refusal.status);
  });
  return app;
}
