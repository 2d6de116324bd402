/** What the shop has set for all its jobs, and what its jobs teach of a record. */
import { Hono } from 'hono';
import { shopSchema } from '../core/job/shop.ts';
import type { Store } from '../store/store.ts';
import { Refusal } from './refusal.ts';
import { bodyOf } from './requestBody.ts';

const keyPattern = /^[0-9a-f]{16}$/;

export function shopRoutes(store: Store): Hono {
  const routes = new Hono();
  routes.get('/shop', async (c) => c.json(await store.shop()));
  routes.put('/shop', async (c) => c.json(await store.setShop(await bodyOf(c.req, shopSchema))));
  routes.get('/learned/:key', async (c) => {
    const key = c.req.param('key');
    if (!keyPattern.test(key)) throw new Refusal('bad-request', "A record's key is 16 digits or letters a to f.");
    return c.json(await store.learned(key));
  });
  return routes;
}
