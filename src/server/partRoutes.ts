/** The person's library over HTTP: parts, and record files beside them. */
import { Hono } from 'hono';
import { type PartList, partChangeSchema } from '../core/job/api.ts';
import { partKinds } from '../core/job/parts.ts';
import { RECORD_KIND } from '../core/job/recordFile.ts';
import type { LibraryKind } from '../store/parts.ts';
import type { Store } from '../store/store.ts';
import { changed, present } from './jobRoutes.ts';
import { Refusal } from './refusal.ts';
import { bodyOf } from './requestBody.ts';

const idPattern = /^[A-Za-z0-9_-]{1,64}$/;

const kinds: readonly LibraryKind[] = [...partKinds, RECORD_KIND];

function kindOf(text: string): LibraryKind {
  const kind = kinds.find((name) => name === text);
  if (kind === undefined) {
    throw new Refusal('not-found', `There are no parts of kind ${text}; there are: ${kinds.join(', ')}.`);
  }
  return kind;
}

export function partRoutes(store: Store): Hono {
  const routes = new Hono();
  routes.get('/parts', async (c) => {
    const kind = c.req.query('kind');
    const parts = await store.parts(kind === undefined ? undefined : kindOf(kind));
    return c.json({ parts } satisfies PartList);
  });
  routes.get('/parts/:kind/:id', async (c) =>
    c.json(present(await store.part(kindOf(c.req.param('kind')), c.req.param('id')))),
  );
  routes.patch('/parts/:kind/:id', async (c) => {
    const kind = kindOf(c.req.param('kind'));
    const id = c.req.param('id');
    if (!idPattern.test(id)) throw new Refusal('bad-request', "A part's id is 1 to 64 letters, digits, - or _.");
    const change = await bodyOf(c.req, partChangeSchema);
    return c.json(changed(await store.changePart(kind, id, change), `The ${kind}`));
  });
  routes.delete('/parts/:kind/:id', async (c) => {
    present(await store.deletePart(kindOf(c.req.param('kind')), c.req.param('id')));
    return c.body(null, 204);
  });
  return routes;
}
