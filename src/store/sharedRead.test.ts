/** A shared store that is only read from, or whose owner meanwhile brought it to another layout; and one that is watched while it is away. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Cluster, startCluster } from './cluster.fixture.ts';
import { layoutSteps, newestLayout } from './migrations.ts';
import { given } from './scratch.fixture.ts';
import { openStore, openStoreToRead } from './store.ts';
import { StoreError } from './storeError.ts';
import { until } from './until.fixture.ts';

let cluster: Cluster;
beforeAll(async () => {
  cluster = await startCluster();
});
afterAll(() => cluster?.end());

const databaseOf = (url: string): string => new URL(url).pathname.slice(1);
const refusal = async (work: Promise<unknown>): Promise<string> => {
  const error = await work.then(
    () => new Error('it was done'),
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(StoreError);
  return (error as Error).message;
};

it('is read as it is, and one of an earlier layout is not changed by reading', async () => {
  const url = await cluster.empty();
  const store = await openStore(url);
  const { id } = given(await store.createJob({ deck: { name: 'deck' } }));
  await store.close();
  const reader = await openStoreToRead(url);
  expect(given(await reader.job(id)).deck.name).toBe('deck');
  await reader.close();
  const steps = (where: string) =>
    cluster.query(`${where} from layout_steps where number = ${newestLayout}`, databaseOf(url));
  await steps('delete');
  expect(await refusal(openStoreToRead(url))).toBe(
    'The store is of an earlier version: start serve once, which brings it up to date.',
  );
  expect(await steps('select *')).toEqual([]);
});

it('that has the table of its steps and no step yet has no jobs to read', async () => {
  const url = await cluster.empty();
  await cluster.query(
    'create table layout_steps (number integer primary key, name text not null, applied_at text not null)',
    databaseOf(url),
  );
  expect(await refusal(openStoreToRead(url))).toBe(
    'There are no jobs yet: the schema is empty; serve or job import makes a store.',
  );
});

it('whose texts are not in UTF8 is refused', async () => {
  await cluster.query("create database latin encoding 'LATIN1' locale 'C' template template0");
  expect(await refusal(openStore(cluster.url('latin')))).toBe('The database keeps text as LATIN1; UTF8 was expected.');
});

it('whose role does not exist, or may not make tables, is refused in words', async () => {
  const url = await cluster.empty();
  expect(await refusal(openStore(url.replace('user=postgres', 'user=nobody')))).toMatch(
    /^The database let this program not in: /,
  );
  await cluster.query('create role guest login');
  expect(await refusal(openStore(url.replace('user=postgres', 'user=guest')))).toMatch(/^The role may not do this: /);
});

it('its layout is that of a file: the same steps, tables and columns', async () => {
  const url = await cluster.empty();
  await (await openStore(url)).close();
  const steps = await cluster.query('select number, name from layout_steps order by number', databaseOf(url));
  expect(steps).toEqual(layoutSteps.map(({ number, name }) => ({ number, name })));
  const texts = await cluster.query(
    "select count(*)::int as n from information_schema.columns where table_schema = 'public' and data_type = 'text' and collation_name is distinct from 'C'",
    databaseOf(url),
  );
  expect(texts).toEqual([{ n: 0 }]);
});

it('is watched from the moment that it is there, and told of once the line stands', async () => {
  const url = await cluster.empty();
  const store = await openStore(url);
  await cluster.stop();
  let told = 0;
  const watch = await store.watch(() => {
    told += 1;
  });
  expect(told).toBe(0);
  await cluster.start();
  await until('it was told of', () => told > 0);
  const before = told;
  await until('a change is kept', () =>
    store.createJob({ deck: { name: 'deck' } }).then(
      () => true,
      () => false,
    ),
  );
  await until('the change was told of', () => told > before);
  await watch.end();
  await store.close();
});
