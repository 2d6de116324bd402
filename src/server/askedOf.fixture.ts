/** For tests of routes: a store that notes what it is asked and answers as told, and the answer of a route over it. */
import type { Hono } from 'hono';
import type { Store } from '../store/store.ts';
import { refusalOf } from './refusal.ts';

export type Asked = readonly [question: string, ...with: unknown[]];

/** @param answers by the question's name, `chains.list` for one of chains */
export function notingStore(answers: Readonly<Record<string, unknown>>) {
  const asked: Asked[] = [];
  const question =
    (name: string) =>
    async (...given: unknown[]): Promise<unknown> => {
      asked.push([name, ...given]);
      if (!(name in answers)) throw new Error(`${name} was not to be asked`);
      const answer = answers[name];
      return typeof answer === 'function' ? answer(...given) : answer;
    };
  const chains = new Proxy({}, { get: (_, name) => question(`chains.${String(name)}`) });
  const store = new Proxy({}, { get: (_, name) => (name === 'chains' ? chains : question(String(name))) });
  return { store: store as Store, asked };
}

export interface Answered {
  readonly status: number;
  readonly body: unknown;
  readonly headers: Headers;
  readonly asked: readonly Asked[];
}

/** @param body sent as JSON; left out: none is sent */
export async function answerOf(
  routes: (store: Store) => Hono,
  answers: Readonly<Record<string, unknown>>,
  [method, path, body]: readonly [method: string, path: string, body?: unknown],
): Promise<Answered> {
  const { store, asked } = notingStore(answers);
  const app = routes(store);
  app.onError((error, c) => {
    const refused = refusalOf(error);
    return c.json(refused.body, refused.status);
  });
  const sent =
    body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
  const answer = await app.request(path, { method, ...sent });
  const text = await answer.text();
  const isJson = answer.headers.get('content-type')?.startsWith('application/json') === true;
  return { status: answer.status, body: isJson ? JSON.parse(text) : text, headers: answer.headers, asked };
}

export const foundIs = (value: unknown) => ({ outcome: 'found', value });
export const notThere = { outcome: 'not-found', why: 'It is not there.' };
