/** The person's library of parts over HTTP. */
import { Hono } from 'hono';
import { type PartList, partChangeSchema, type StationData } from '../core/job/api.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { type PartKind, partKinds, partSchemaOf } from '../core/job/parts.ts';
import type { Store } from '../store/store.ts';
import { changed, present } from './jobRoutes.ts';
import { Refusal } from './refusal.ts';
import { bodyOf } from './requestBody.ts';

const idPattern = /^[A-Za-z0-9_-]{1,64}$/;

function kindOf(text: string): PartKind {
  const kind = partKinds.find((name) => name === text);
  if (kind === undefined) {
    throw new Refusal('not-found', `There are no parts of kind ${text}; there are: ${partKinds.join(', ')}.`);
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
  routes.put('/parts/:kind/:id', async (c) => {
    const kind = kindOf(c.req.param('kind'));
    const id = c.req.param('id');
    if (!idPattern.test(id)) throw new Refusal('bad-request', "A part's id is 1 to 64 letters, digits, - or _.");
    const { revision, data } = await bodyOf(c.req, partChangeSchema);
    const part = partSchemaOf(kind).safeParse(data);
    if (!part.success)
      throw new Refusal('bad-request', `The ${kind} is not what was expected; ${checkSentence(part.error)}.`);
    const answer = await store.putPart(kind, id, { revision, data: part.data as unknown as StationData });
    return c.json(changed(answer, 'The part'));
  });
  routes.delete('/parts/:kind/:id', async (c) => {
    present(await store.deletePart(kindOf(c.req.param('kind')), c.req.param('id')));
    return c.body(null, 204);
  });
  return routes;
}
