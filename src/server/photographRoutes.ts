/** Photographs of a job over HTTP. */
import { Hono } from 'hono';
import { newPhotographSchema, photographChangeSchema } from '../core/job/photographs.ts';
import type { Store } from '../store/store.ts';
import { present } from './jobRoutes.ts';
import { Refusal } from './refusal.ts';
import { bodyOf } from './requestBody.ts';

export function photographRoutes(store: Store): Hono {
  const routes = new Hono();
  routes.post('/jobs/:id/photographs', async (c) => {
    const answer = await store.addPhotograph(c.req.param('id'), await bodyOf(c.req, newPhotographSchema));
    if (answer.outcome === 'refused') throw new Refusal('bad-request', `The photograph is not kept: ${answer.why}.`);
    return c.json(present(answer), 201);
  });
  routes.get('/jobs/:id/photographs/:photograph', async (c) =>
    c.body(present(await store.jpeg(c.req.param('id'), c.req.param('photograph'))), 200, {
      'Content-Type': 'image/jpeg',
    }),
  );
  routes.patch('/jobs/:id/photographs/:photograph', async (c) => {
    const change = await bodyOf(c.req, photographChangeSchema);
    return c.json(present(await store.changePhotograph(c.req.param('id'), c.req.param('photograph'), change)));
  });
  routes.delete('/jobs/:id/photographs/:photograph', async (c) =>
    c.json(present(await store.deletePhotograph(c.req.param('id'), c.req.param('photograph')))),
  );
  return routes;
}
