/** Everything that is tested of a store, of one that lies in PostgreSQL. */
import { afterAll, beforeAll, describe } from 'vitest';
import { type Cluster, startCluster } from './cluster.fixture.ts';
import { storesIn } from './fresh.fixture.ts';

let cluster: Cluster;
beforeAll(async () => {
  cluster = await startCluster();
  storesIn(() => cluster.fresh());
});
afterAll(() => cluster?.end());

describe('jobs, stations, recordings', () => import('./store.test.ts').then(() => undefined));
describe('lists and search', () => import('./jobList.test.ts').then(() => undefined));
describe('history', () => import('./history.test.ts').then(() => undefined));
describe('photographs', () => import('./photographs.test.ts').then(() => undefined));
describe('epochs', () => import('./epochs.test.ts').then(() => undefined));
describe('record files', () => import('./recordFiles.test.ts').then(() => undefined));
describe('owners', () => import('./whoseIsIt.test.ts').then(() => undefined));
describe('bounds', () => import('./bounds.test.ts').then(() => undefined));
describe('the shop', () => import('./shop.test.ts').then(() => undefined));
describe('files', () => import('./transfer.test.ts').then(() => undefined));
