import { Hono } from 'hono';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { queryOf } from './queryOf.ts';
import { refusalOf } from './refusal.ts';
import { bodyOf } from './requestBody.ts';

/** What is read of a body, or how it is refused. */
async function read(body: string, type: string | null = 'application/json', schema: z.ZodType = z.unknown()) {
  const app = new Hono();
  app.post('/', async (c) => c.json({ read: await bodyOf(c.req, schema) }));
  app.onError((error, c) => {
    const { status, body } = refusalOf(error);
    return c.json(body, status);
  });
  const sent = new Request('http://x/', { method: 'POST', body: new TextEncoder().encode(body) });
  if (type !== null) sent.headers.set('content-type', type);
  return (await app.request(sent)).json();
}
const nested = (depth: number, [open, close]: string) => open.repeat(depth) + close.repeat(depth);
const deep = { code: 'bad-request', error: 'The body is nested deeper than 100; no document of the bench is.' };

it.each(['application/json', 'application/json; charset=utf-8', 'Application/JSON ;x', 'application/json '])(
  '“%s” is the type that is taken',
  async (type) => expect(await read('{"a":[1]}', type)).toEqual({ read: { a: [1] } }),
);

it.each([
  'text/plain',
  'application/jsonp',
  'xapplication/json',
  'application/json+x',
  'text/plain; application/json',
  '',
])('“%s” is refused and named', async (type) =>
  expect(await read('{}', type === '' ? null : type)).toEqual({
    code: 'not-json',
    error: `The body was sent as '${type}'; application/json was expected.`,
  }),
);

it('a long type is named by its first sixty letters', async () => {
  expect(await read('{}', 'x'.repeat(61))).toMatchObject({
    error: `The body was sent as '${'x'.repeat(60)}'; application/json was expected.`,
  });
});

it('a hundred lists or objects inside each other are taken, one more is not', async () => {
  expect(await read(nested(100, '[]'))).toHaveProperty('read');
  expect(await read(nested(101, '[]'))).toEqual(deep);
  const objects = (depth: number) => `${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`;
  expect(await read(objects(100))).toHaveProperty('read');
  expect(await read(objects(101))).toEqual(deep);
  expect(await read(`[${'[],{},'.repeat(300)}1]`)).toHaveProperty('read');
});

it('brackets in texts do not count, whatever quotes and backslashes stand beside them', async () => {
  for (const text of ['['.repeat(200), '{'.repeat(200), `\\"${'['.repeat(200)}`, `\\\\\\"${'{'.repeat(200)}`])
    expect(await read(`["${text}", 1]`), text.slice(0, 8)).toHaveProperty('read');
  // closed before the brackets: these count
  expect(await read(`["\\\\", ${nested(100, '[]')}]`)).toEqual(deep);
  // closing ones in a text take nothing away
  expect(await read(`["${']'.repeat(50)}${'}'.repeat(50)}", ${nested(100, '[]')}]`)).toEqual(deep);
});

it('what is no JSON, or not what was expected, is told in a sentence', async () => {
  expect(await read('{"a":')).toEqual({ code: 'bad-request', error: 'The body is not JSON.' });
  const schema = z.strictObject({ a: z.number({ error: 'a number was expected' }) });
  expect(await read('{"a":1}', 'application/json', schema)).toEqual({ read: { a: 1 } });
  expect(await read('{"a":"x"}', 'application/json', schema)).toEqual({
    code: 'bad-request',
    error: 'The body is not what was expected; a: a number was expected.',
  });
});

it('what an address asks is read by its schema, or refused in a sentence', () => {
  const schema = z.object({ limit: z.coerce.number({ error: 'a number was expected' }).default(7) });
  expect(queryOf(schema, {})).toEqual({ limit: 7 });
  expect(queryOf(schema, { limit: '3' })).toEqual({ limit: 3 });
  expect(() => queryOf(schema, { limit: 'x' })).toThrow(/^limit: a number was expected\.$/);
});
