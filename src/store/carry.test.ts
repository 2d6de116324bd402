/** Chains, reference recordings and batches go along when a store is copied, either way; twice does no harm. */
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { type BatchStore, openBatches } from './batch/batchStore.ts';
import { fingerprintOf, play, sideWith, testRecord } from './chain/chains.fixture.ts';
import { type Cluster, startCluster } from './cluster.fixture.ts';
import { copyJobs } from './copyJobs.ts';
import { given, scratchFolder } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

const folder = scratchFolder();
let cluster: Cluster;
let made = 0;
const open: { close(): Promise<void> }[] = [];
beforeAll(async () => {
  cluster = await startCluster();
});
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
});

const record = testRecord(138);
const AT = '2026-03-31T09:00:00.000Z';
const dayAt = (day: number): string => new Date(Date.UTC(2026, 2, 1 + day, 6)).toISOString();
const file = async () => join(folder.path, `${++made}.sqlite`);
const shared = () => cluster.empty();

async function opened(place: string): Promise<{ store: Store; batch: BatchStore }> {
  let ids = 0;
  const name = ++made;
  const origin = { now: () => AT, newId: () => `of-${name}-${++ids}` };
  const both = { store: await openStore(place, origin), batch: await openBatches(place, origin) };
  open.push(both.store, both.batch);
  return both;
}

const claimer = (token: string) => ({ token, worker: 'w', leaseMs: 60_000 });

/** Everything of them that can be asked for, without the ids of chains. */
async function all({ store, batch }: { store: Store; batch: BatchStore }) {
  const charts = given(await store.chains.charts('studio 2'));
  const text = JSON.stringify({
    chain: given(await store.chains.chain('studio 2')),
    charts,
    history: given(await store.chains.history('studio 2', { limit: 100 })),
    references: await store.chains.references('2026-03-31'),
    report: [...(await batch.report('3', null, 100))].sort((a, b) => (a.path < b.path ? -1 : 1)),
    sides: (await batch.status('3')).sides,
  });
  return JSON.parse(text.replaceAll(charts.chain.id, 'the chain'));
}

const from = async (place: string) => {
  const there = await opened(place);
  const { store, batch } = there;
  for (let day = 0; day < 12; day++)
    await play(batch, {
      chain: 'studio 2',
      record,
      at: dayAt(day),
      speed: day / 100,
      fingerprint: fingerprintOf(day + 1),
    });
  await store.chains.change({ name: 'studio 2', parts: { deck: 'bench deck 3' }, since: dayAt(0) });
  await store.chains.change({ name: 'studio 2', parts: { cartridge: 'B' }, since: dayAt(5), why: 'worn tip' });
  const job = given(await store.createJob({ deck: { name: 'bench deck 3' } }));
  await store.chains.setJob(job.id, 'studio 2');
  const document = sideWith(0.5, record, '3', fingerprintOf(99));
  await store.addCapture(job.id, { document, heardAt: dayAt(13) });
  const { key, name } = record;
  const reference = { fingerprint: fingerprintOf(1), name: 'house transfer', record: { key, name } };
  await store.chains.addReference({ ...reference, certificate: 'C 12', expires: '2027-03-01' });
  // one with a worker, one that waits
  await batch.addFiles(record.id, '', [
    { root: 'archive', path: 'x/1.wav', bytes: 1, modifiedMs: 1 },
    { root: 'archive', path: 'x/2.wav', bytes: 1, modifiedMs: 1 },
  ]);
  const work = await batch.claimFile(claimer('f'), ['archive']);
  if (work === null) throw new Error('nothing to claim');
  expect(await batch.fingerprinted(work, fingerprintOf(50), '3', claimer('s'))).not.toBeNull();
  return there;
};

it.each([
  ['a file into PostgreSQL', file, shared],
  ['PostgreSQL into a file', shared, file],
])('%s, whole; what a worker has is open there', async (_, here, there) => {
  const source = await from(await here());
  const target = await opened(await there());
  const first = await copyJobs(source.store, target.store, 'x');
  expect(first.carried).toEqual({
    chains: 1,
    chain_states: 2,
    chain_jobs: 1,
    reference_recordings: 1,
    batch_records: 1,
    batch_files: 14,
    batch_sides: 13,
  });
  const [was, is] = [await all(source), await all(target)];
  expect(was.sides).toMatchObject({ claimed: 1, open: 0, done: 12 });
  expect(is.sides).toMatchObject({ claimed: 0, open: 1, done: 12 });
  expect(was.report.map(({ state }: { state: string }) => state)).toContain('claimed');
  const unclaimed = JSON.parse(JSON.stringify(was.report).replaceAll('"claimed"', '"open"'));
  expect({ ...is, sides: 0 }).toEqual({ ...was, report: unclaimed, sides: 0 });
  const again = await copyJobs(source.store, target.store, 'x');
  expect(Object.values(again.carried).every((count) => count === 0)).toBe(true);
  expect(await all(target)).toEqual(is);
});

it.each([
  ['a file', file],
  ['PostgreSQL', shared],
])(
  'into %s that has some of it: a chain of the same name, a side that waits, one that a worker has',
  async (_, there) => {
    const source = await from(await file());
    const target = await opened(await there());
    const { key, name } = record;
    await target.store.chains.change({ name: 'studio 2', parts: { preamp: 'P' }, since: dayAt(2) });
    const reference = { fingerprint: fingerprintOf(1), name: 'known here', record: { key, name } };
    await target.store.chains.addReference({ ...reference, certificate: '', expires: '2027-01-01' });
    await target.batch.addRecord({ id: record.id, name, text: record.text });
    const found = [1, 2, 3].map((place) => ({
      root: 'archive',
      path: `here/${place}.wav`,
      bytes: place,
      modifiedMs: 1,
    }));
    await target.batch.addFiles(record.id, '', found);
    const files = [];
    for (let place = 1; place <= 3; place++) {
      const work = await target.batch.claimFile(claimer(`f${place}`), ['archive']);
      if (work === null) throw new Error('nothing to claim');
      files.push(await target.batch.fingerprinted(work, fingerprintOf(place), '3', claimer(`s${place}`)));
    }
    const [waits, worked, done] = files;
    if (waits === null || worked === null || done === null) throw new Error('nothing was claimed');
    await target.batch.giveBack(waits);
    expect(await target.batch.complete(done, sideWith(7, record, '3', done.fingerprint), 1)).toBe(true);
    const { carried } = await copyJobs(source.store, target.store, 'x');
    expect(carried).toMatchObject({ chains: 0, chain_states: 2, reference_recordings: 0, batch_sides: 11 });
    const chain = given(await target.store.chains.chain('studio 2'));
    expect(chain.states.map(({ parts }) => parts)).toEqual(
      expect.arrayContaining([{ preamp: 'P' }, { deck: 'bench deck 3' }]),
    );
    const speeds = (await target.batch.report('3', null, 100)).flatMap(({ path, state, figures }) =>
      path.startsWith('here/') ? [[path, state, figures[0]?.value ?? null]] : [],
    );
    expect(speeds.sort()).toEqual([
      ['here/1.wav', 'done', 0],
      ['here/2.wav', 'claimed', null],
      ['here/3.wav', 'done', 7],
    ]);
    expect(await target.batch.complete(worked, sideWith(8, record, '3', worked.fingerprint), 1)).toBe(true);
  },
);
