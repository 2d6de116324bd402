import { afterEach, expect, it } from 'vitest';
import { noLetterhead } from '../core/job/letterhead.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { type Carried, carriedTables } from './carry.ts';
import { copyJobs } from './copyJobs.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

const open: Store[] = [];
afterEach(async () => {
  for (const store of open.splice(0)) await store.close();
});
/** A store whose times and ids are its own. @param of leads its ids */
async function fresh(of: string, year: number): Promise<Store> {
  const origin = countingOrigin();
  const own = { now: () => origin.now().replace('2026', String(year)), newId: () => `${of}-${origin.newId()}` };
  const store = await openStore(':memory:', own);
  open.push(store);
  return store;
}
const job = async (store: Store, name: string) => given(await store.createJob({ deck: { name } }));
const arm = (id: string, name: string) => ({
  kind: 'arm',
  id,
  data: { schema: 1, kind: 'arm', name },
  revision: 1,
  updatedAt: '2026-03-04T09:00:00.000Z',
});
const none = Object.fromEntries(carriedTables.map((table) => [table, 0])) as Record<Carried, number>;
const nothing = {
  jobs: 0,
  there: 0,
  renumbered: [],
  otherwise: [],
  unreadable: [],
  parts: 0,
  partsOtherwise: 0,
  settings: [],
  carried: none,
};

it('of an empty store nothing is copied', async () => {
  expect(await copyJobs(await fresh('a', 2026), await fresh('b', 2027), 'x')).toEqual(nothing);
});

it('everything is counted once: taken over, there already, there otherwise, under another number', async () => {
  const [from, to] = [await fresh('a', 2026), await fresh('b', 2027)];
  const first = await job(from, 'one');
  await job(from, 'two');
  await job(to, 'own');
  await from.addCapture(first.id, { document: tiltedSide });
  for (const part of [arm('a', 'A'), arm('b', 'B'), arm('c', 'C')]) await from.takePart(part);
  for (const part of [arm('b', 'B'), arm('c', 'other')]) await to.takePart(part);
  await from.setShop({ limits: { class: 'archive' } });
  await from.setLetterhead({ ...noLetterhead, name: 'From' });
  await from.chains.change({ name: 'studio', parts: { deck: 'D' }, since: '2026-03-04T09:00:00.000Z' });
  const copied = await copyJobs(from, to, 'x');
  expect(copied).toEqual({
    ...nothing,
    jobs: 2,
    // oldest first: the number of the one is another job's there, and that of the other is the one's now
    renumbered: [
      [1, 2],
      [2, 3],
    ],
    parts: 1,
    partsOtherwise: 1,
    settings: ['letterhead', 'shop'],
    carried: { ...none, chains: 1, chain_states: 1 },
  });
  const { jobs } = await to.jobs();
  expect(jobs.map(({ number, deck }) => `${number} ${deck.name}`)).toEqual(['3 two', '2 one', '1 own']);
  expect([await to.shop(), (await to.letterhead()).name]).toEqual([{ limits: { class: 'archive' } }, 'From']);
  expect(await copyJobs(from, to, 'x')).toEqual({ ...nothing, there: 2, partsOtherwise: 1 });
  await from.changeJob(first.id, { changes: [{ path: ['notes'], was: '', is: 'since' }] });
  expect(await copyJobs(from, to, 'x')).toEqual({ ...nothing, there: 1, otherwise: [1], partsOtherwise: 1 });
});

it('what the other shop has set stays, each by itself', async () => {
  const [from, to] = [await fresh('a', 2026), await fresh('b', 2027)];
  await from.setShop({ limits: { class: 'archive' } });
  await from.setLetterhead({ ...noLetterhead, name: 'From' });
  await to.setLetterhead({ ...noLetterhead, name: 'To' });
  expect((await copyJobs(from, to, 'x')).settings).toEqual(['shop']);
  expect((await to.letterhead()).name).toBe('To');
  const other = await fresh('c', 2028);
  await other.setShop({ limits: { recheck: { tilt: '0.5' } } });
  expect((await copyJobs(from, other, 'x')).settings).toEqual(['letterhead']);
  expect(await other.shop()).toEqual({ limits: { recheck: { tilt: '0.5' } } });
});

it('a job that cannot be read is named and keeps back no other; any other error ends the copying', async () => {
  const [from, to] = [await fresh('a', 2026), await fresh('b', 2027)];
  const [bad, good] = [await job(from, 'bad'), await job(from, 'good')];
  const failing = (error: Error): Store => ({
    ...from,
    jobs: async (query) => ({ ...(await from.jobs(query)), unreadable: [{ id: 'u', number: 7, why: 'no title' }] }),
    exportJob: (id, ...more) => (id === bad.id ? Promise.reject(error) : from.exportJob(id, ...more)),
  });
  const copied = await copyJobs(failing(new SyntaxError('no JSON')), to, 'x');
  expect([copied.jobs, copied.unreadable]).toEqual([1, ['job 7: no title', `job ${bad.number}: no JSON`]]);
  expect((await to.jobs()).jobs.map(({ id }) => id)).toEqual([good.id]);
  await expect(copyJobs(failing(new Error('disk')), to, 'x')).rejects.toThrow('disk');
});

it('a job that was deleted while others were read is passed over', async () => {
  const [from, to] = [await fresh('a', 2026), await fresh('b', 2027)];
  const gone = await job(from, 'gone');
  const store: Store = {
    ...from,
    exportJob: async (id, ...more) =>
      id === gone.id ? { outcome: 'not-found', why: 'There is no job.' } : from.exportJob(id, ...more),
  };
  expect(await copyJobs(store, to, 'x')).toEqual(nothing);
});

it('jobs and rows of chains are gone through page after page', async () => {
  const [from, to] = [await fresh('a', 2026), await fresh('b', 2027)];
  for (const name of ['one', 'two', 'three']) await job(from, name);
  const asked: unknown[] = [];
  const paged: Store = {
    ...from,
    jobs: (query = {}) => {
      asked.push(query.before);
      return from.jobs({ ...query, limit: 1 });
    },
  };
  expect((await copyJobs(paged, to, 'x')).jobs).toBe(3);
  expect(asked).toEqual([undefined, 3, 2]);
  expect((await to.jobs()).jobs.map(({ deck }) => deck.name)).toEqual(['three', 'two', 'one']);
});
