import { afterEach, beforeEach, expect, it } from 'vitest';
import { leafChanges } from '../core/job/leafPaths.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

const house = {
  schema: 1,
  name: 'House record',
  rpm: 45,
  shelf: 3,
  bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }],
};

it('a record file is kept whole, what its reader does not know included, and no other part is touched by it', async () => {
  const kept = await store.changePart('record', 'a', { changes: leafChanges({}, house) });
  expect(kept).toMatchObject({ outcome: 'changed', value: { kind: 'record', data: house } });
  expect(given(await store.part('record', 'a')).data).toEqual(house);
});

it('what is no record file is refused in the words of its reader', async () => {
  const answer = await store.changePart('record', 'a', { changes: leafChanges({}, { ...house, rpm: 3 }) });
  expect(answer).toEqual({ outcome: 'refused', why: 'House record: rpm is 3; a number from 10 to 100 was expected.' });
  expect(await store.parts('record')).toEqual([]);
});

it('a job remembers the record file it is played with, and its file carries the choice', async () => {
  const job = given(await store.createJob({ deck: { name: 'one' } }));
  const head = await store.changeJob(job.id, { changes: [{ path: ['recordFile'], was: '', is: 'a' }] });
  expect(head).toMatchObject({ outcome: 'changed', value: { recordFile: 'a' } });
  expect(given(await store.job(job.id)).recordFile).toBe('a');
  expect(given(await store.exportJob(job.id, 'test')).job.recordFile).toBe('a');
});
