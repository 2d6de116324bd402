/** Everything that is tested of a store, of one that lies in PostgreSQL. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Cluster, startCluster } from './cluster.fixture.ts';
import { storesIn } from './fresh.fixture.ts';
import { askedOf, fillStore } from './manyJobs.fixture.ts';
import { openStore } from './store.ts';

let cluster: Cluster;
beforeAll(async () => {
  cluster = await startCluster();
  storesIn(() => cluster.fresh());
});
afterAll(() => cluster?.end());

describe('jobs, stations, recordings', () => import('./store.test.ts').then(() => undefined));
describe('lists and search', () => import('./jobList.test.ts').then(() => undefined));
describe('history', () => import('./history.test.ts').then(() => undefined));
describe('next checks', () => import('./nextChecks.test.ts').then(() => undefined));
describe('photographs', () => import('./photographs.test.ts').then(() => undefined));
describe('epochs', () => import('./epochs.test.ts').then(() => undefined));
describe('record files', () => import('./recordFiles.test.ts').then(() => undefined));
describe('owners', () => import('./whoseIsIt.test.ts').then(() => undefined));
describe('bounds', () => import('./bounds.test.ts').then(() => undefined));
describe('the shop', () => import('./shop.test.ts').then(() => undefined));
describe('files', () => import('./transfer.test.ts').then(() => undefined));

it('2,000 jobs: every page and every search finds what it should', async () => {
  const place = await cluster.empty();
  await fillStore(place, 2_000);
  const store = await openStore(place);
  expect((await askedOf(store, 2_000)).size).toBeGreaterThan(5);
  await store.close();
});
