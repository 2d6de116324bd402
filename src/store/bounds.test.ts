import { afterEach, beforeEach, expect, it } from 'vitest';
import { jobsQuerySchema } from '../core/job/api.ts';
import { readJobFile } from '../core/job/jobFile.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';
import { Unkeepable } from './storeError.ts';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

it('the character NUL is refused in a sentence, and nothing of what it came with is kept', async () => {
  await expect(store.createJob({ deck: { name: 'a\0b' } })).rejects.toThrow(Unkeepable);
  const { id } = given(await store.createJob({ deck: { name: 'deck' } }));
  const notes = { changes: [{ path: ['notes'], was: '', is: 'a\0b' }] };
  await expect(store.changeJob(id, notes)).rejects.toThrow('holds the character NUL');
  expect(given(await store.job(id)).notes).toBe('');
  expect((await store.jobs()).jobs).toHaveLength(1);
});

it('whole numbers beyond 2³¹ − 1 are refused before they are asked for', async () => {
  expect(jobsQuerySchema.safeParse({ before: '2147483647' }).success).toBe(true);
  expect(jobsQuerySchema.safeParse({ before: '2147483648' }).success).toBe(false);
  const { id } = given(await store.createJob({ deck: { name: 'deck' } }));
  const file = JSON.parse(JSON.stringify(given(await store.exportJob(id, 'x'))));
  expect(readJobFile(file).found).toBe(true);
  expect(readJobFile({ ...file, job: { ...file.job, revision: 2 ** 31 } }).found).toBe(false);
  expect((await store.jobs({ before: 2 ** 31 - 1 })).jobs).toHaveLength(1);
});

it('figures come back as they went in, to the last bit, the smallest and the largest', async () => {
  const { id } = given(await store.createJob({ deck: { name: 'deck' } }));
  const values = [0.1 + 0.2, Number.MAX_VALUE, 5e-324, -1 / 3, 2 ** 53 + 2];
  const findings = values.map((value) => ({ ...tiltedSide.findings[0], value, uncertainty: Math.abs(value) / 3 }));
  const { added } = given(await store.addCapture(id, { document: { ...tiltedSide, findings } }));
  const back = given(await store.capture(id, added.capture.id)).document.findings;
  expect(back.map(({ value }) => value)).toEqual(values);
});

it('a recording or a job that is sent twice with one id is kept once, and a move of one step marks once', async () => {
  const wanted = { id: 'job-from-the-page', deck: { name: 'deck' } };
  const { id } = given(await store.createJob(wanted));
  expect(given(await store.createJob(wanted)).id).toBe(id);
  const live = { ...tiltedSide, capture: { ...tiltedSide.capture, sha256: null } };
  const first = given(await store.addCapture(id, { id: 'take-1', document: live }));
  const again = given(await store.addCapture(id, { id: 'take-1', document: live }));
  expect([first.fresh, again.fresh, again.added.capture.id]).toEqual([true, false, 'take-1']);
  const other = given(await store.createJob({ deck: { name: 'other' } }));
  expect((await store.addCapture(other.id, { id: 'take-1', document: live })).outcome).toBe('not-found');
  await store.changeStation(id, 'run', { status: { was: 'untouched', is: 'done' } });
  const move = { move: 'slide', station: 'place', by: 0.3, step: 's-1' } as const;
  const once = given(await store.move(id, move));
  const twice = given(await store.move(id, move));
  expect(Object.keys(twice.stations)).toEqual(Object.keys(once.stations));
  expect(twice.stations.run?.marks).toEqual(once.stations.run?.marks);
  expect(twice.stations.run?.revision).toBe(once.stations.run?.revision);
  const { captures } = given(await store.job(id));
  expect(captures).toHaveLength(1);
});

it('texts are in the order of their bytes, whatever the language of the server', async () => {
  for (const name of ['b', 'ä', 'B', 'a', '10', '9', '-']) await store.createJob({ deck: { name } });
  expect((await store.decks()).decks.map(({ name }) => name)).toEqual(['-', '10', '9', 'B', 'a', 'b', 'ä']);
});
