/** The line of changes over a store that is told what to do. */
import { expect, it } from 'vitest';
import type { Store } from '../store/store.ts';
import { StoreAway } from '../store/storeError.ts';
import { changeRoutes } from './changeRoutes.ts';

/** A store whose changes are made by hand. */
function line() {
  const state = { stamp: 'one' as string | null, parts: '1', fails: null as Error | null, watches: 0, ended: 0 };
  let told = (): void => undefined;
  const answer = <T>(value: T): Promise<T> =>
    state.fails === null ? Promise.resolve(value) : Promise.reject(state.fails);
  const store = {
    jobStamp: () => answer(state.stamp),
    partsStamp: () => answer(state.parts),
    async watch(listener: () => void) {
      state.watches += 1;
      told = listener;
      return {
        async end() {
          state.ended += 1;
        },
      };
    },
  } as unknown as Store;
  return { state, routes: changeRoutes(store), change: () => told() };
}

async function listener(routes: ReturnType<typeof changeRoutes>, path: string) {
  const answer = await routes.request(path);
  const reader = (answer.body as ReadableStream<Uint8Array>).getReader();
  let text = '';
  void (async () => {
    for (;;) {
      const { value, done } = await reader.read();
      if (done) return;
      text += new TextDecoder().decode(value);
    }
  })();
  return {
    events: () =>
      [...text.matchAll(/event: (\w+)\ndata: (.*)\n\n/g)].map(([, event, data]) => [event, JSON.parse(data)]),
    end: () => reader.cancel(),
  };
}
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000, interval: 10 });
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

it('a job is told at once and when its time is another one, not otherwise; gone it is told as such', async () => {
  const { state, routes, change } = line();
  const ear = await listener(routes, '/changes?job=j');
  const job = (updatedAt: string | null) => ['job', { job: 'j', updatedAt }];
  await soon(ear.events).toEqual([job('one')]);
  change();
  await pause(250);
  expect(ear.events()).toEqual([job('one')]);
  state.stamp = 'two';
  change();
  await soon(ear.events).toEqual([job('one'), job('two')]);
  state.stamp = null;
  change();
  await soon(ear.events).toEqual([job('one'), job('two'), job(null)]);
  await ear.end();
});

it('several changes at once are told once', async () => {
  const { state, routes, change } = line();
  const ear = await listener(routes, '/changes');
  await soon(ear.events).toEqual([['store', { parts: '1' }]]);
  state.parts = '2';
  for (let n = 0; n < 5; n++) change();
  await soon(ear.events).toEqual([
    ['store', { parts: '1' }],
    ['store', { parts: '2' }],
  ]);
  await pause(250);
  expect(ear.events()).toHaveLength(2);
  await ear.end();
});

it('all pages share one watch, which ends with the last of them and begins anew with the next', async () => {
  const { state, routes, change } = line();
  const [one, two] = [await listener(routes, '/changes'), await listener(routes, '/changes?job=j&store=1')];
  await soon(() => [one.events().length, two.events().length]).toEqual([1, 2]);
  expect(state.watches).toBe(1);
  await one.end();
  change();
  await soon(() => two.events().length).toBe(3);
  expect(state.ended).toBe(0);
  await two.end();
  change();
  await soon(() => state.ended).toBe(1);
  const three = await listener(routes, '/changes');
  await soon(() => three.events().length).toBe(1);
  expect(state.watches).toBe(2);
  await three.end();
});

it('while the database is away nothing is told, and the line stays', async () => {
  const { state, routes, change } = line();
  state.fails = new StoreAway(false);
  const ear = await listener(routes, '/changes?job=j');
  await pause(150);
  expect(ear.events()).toEqual([]);
  state.fails = null;
  change();
  await soon(ear.events).toEqual([['job', { job: 'j', updatedAt: 'one' }]]);
  await ear.end();
});
