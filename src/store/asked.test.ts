/** Questions that a store answers of itself. */
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, expect, it, vi } from 'vitest';
import { demoJob } from '../core/job/demoJob.ts';
import { demoParts } from '../core/job/demoParts.ts';
import { noLetterhead } from '../core/job/letterhead.ts';
import { countingOrigin, given, scratchFolder } from './scratch.fixture.ts';
import { openStore, openStoreToRead, type Store } from './store.ts';
import { watchStore } from './watch.ts';

const folder = scratchFolder();
let store: Store;
let made = 0;
afterAll(() => folder.remove());
const place = () => join(folder.path, `${++made}.sqlite`);
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
});
afterEach(async () => {
  await store.close();
});

it('a job is found by its id before its number, and by a number of up to nine digits', async () => {
  const named = given(await store.createJob({ id: '2', deck: { name: 'a' } }));
  const second = given(await store.createJob({ deck: { name: 'b' } }));
  expect([named.number, second.number]).toEqual([1, 2]);
  expect(given(await store.findJob('2'))).toBe('2');
  expect(given(await store.findJob('1'))).toBe('2');
  expect(given(await store.findJob('000000001'))).toBe('2');
  for (const text of ['0000000001', '1 ', ' 1', '-1', '1.0', 'x1', ''])
    expect(await store.findJob(text), text).toEqual({ outcome: 'not-found', why: `There is no job ${text}.` });
});

it('a job’s time is told by its id, and none of a job that is not there', async () => {
  const { id, updatedAt } = given(await store.createJob({ deck: { name: 'a' } }));
  expect([await store.jobStamp(id), await store.jobStamp('none')]).toEqual([updatedAt, null]);
  expect(store.file).toBe(':memory:');
});

it('shop, letterhead and last place are kept as they are given', async () => {
  expect(await store.setShop({ limits: { class: 'archive' } })).toEqual({ limits: { class: 'archive' } });
  expect(await store.shop()).toEqual({ limits: { class: 'archive' } });
  await store.setLetterhead({ ...noLetterhead, address: 'lane' });
  expect(await store.letterhead()).toEqual({ ...noLetterhead, address: 'lane' });
  const { id } = given(await store.createJob({ deck: { name: 'a' } }));
  expect(await store.setLast({ jobId: id, station: 'run' })).toEqual({ outcome: 'found', value: null });
  expect(await store.setLast({ jobId: 'none', station: 'run' })).toEqual({
    outcome: 'not-found',
    why: 'There is no job none.',
  });
  expect(await store.last()).toEqual({ jobId: id, station: 'run' });
});

it('of its first content every part is of the first revision and of one time, and it comes once, jobs or not', async () => {
  const times: string[] = [];
  const first = (at: string) => {
    times.push(at);
    return { job: demoJob({ at, madeBy: 'x' }), parts: demoParts };
  };
  expect(await store.beginWith(first)).toBe(true);
  const parts = await store.parts();
  expect(new Set(parts.map(({ revision, updatedAt }) => `${revision} ${updatedAt}`))).toEqual(
    new Set([`1 ${times[0]}`]),
  );
  expect(new Set(parts.map(({ id }) => id)).size).toBe(demoParts.length);
  const [{ id }] = (await store.jobs()).jobs;
  given(await store.deleteJob(id));
  expect(await store.beginWith(first)).toBe(false);
  expect([(await store.jobs()).jobs, times.length]).toEqual([[], 1]);
});

it('what is only read holds what was written, and each bench its own place', async () => {
  const at = place();
  const [one, two] = [await openStore(at, countingOrigin(), 'one'), await openStore(at, undefined, 'two')];
  const { id } = given(await one.createJob({ deck: { name: 'a' } }));
  await one.setLast({ jobId: id, station: 'tilt' });
  expect([await one.last(), await two.last()]).toEqual([{ jobId: id, station: 'tilt' }, null]);
  const reader = await openStoreToRead(at);
  expect([given(await reader.job(id)).deck.name, reader.file]).toEqual(['a', at]);
  await Promise.all([reader.close(), one.close(), two.close()]);
});

it('a file is looked at twice a second: a change of another program is told once, one’s own silence not at all', async () => {
  const at = place();
  const [here, there] = [await openStore(at), await openStore(at)];
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  let told = 0;
  const watch = await watchStore(at, () => {
    told += 1;
  });
  vi.advanceTimersByTime(2000);
  expect(told).toBe(0);
  await there.createJob({ deck: { name: 'a' } });
  await here.createJob({ deck: { name: 'b' } });
  vi.advanceTimersByTime(499);
  expect(told).toBe(0);
  vi.advanceTimersByTime(1);
  expect(told).toBe(1);
  vi.advanceTimersByTime(2000);
  expect(told).toBe(1);
  await there.createJob({ deck: { name: 'c' } });
  vi.advanceTimersByTime(500);
  expect(told).toBe(2);
  await watch.end();
  expect(vi.getTimerCount()).toBe(0);
  vi.useRealTimers();
  await Promise.all([here.close(), there.close()]);
});

it('of a store in memory nobody else can change anything, so nothing is watched', async () => {
  vi.useFakeTimers({ toFake: ['setInterval'] });
  const watch = await store.watch(() => undefined);
  expect(vi.getTimerCount()).toBe(0);
  await watch.end();
  vi.useRealTimers();
});
