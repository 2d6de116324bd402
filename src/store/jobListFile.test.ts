import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { askedOf, fillStore } from './manyJobs.fixture.ts';
import { countingOrigin, given, scratchFolder } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

let folder: ReturnType<typeof scratchFolder>;
let file: string;
let store: Store;
beforeEach(async () => {
  folder = scratchFolder();
  file = join(folder.path, 'bench.sqlite');
  store = await openStore(file, countingOrigin());
});
afterEach(async () => {
  await store.close();
  folder.remove();
});

it('deleted means that no word of it is left in the file', async () => {
  const { id, deck } = given(
    await store.createJob({ deck: { name: 'Xylodeck' }, customer: 'Zarathustrian', notes: 'Quixotry' }),
  );
  const first = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' })).added;
  await store.addCapture(id, { document: straightSide });
  await store.setOutcome(id, first.advice[0].id, { did: 'done' });
  await store.addFitting(id, { kind: 'stylus', name: 'Wolframic' });
  await store.setLast({ jobId: id, station: 'tilt' });
  const other = given(await store.createJob({ deck: { id: deck.id } }));
  expect(given(await store.deleteJob(id))).toEqual({ number: 1, recordings: 2, deckKept: true });
  expect((await store.deleteJob(id)).outcome).toBe('not-found');
  expect(await store.last()).toBeNull();
  expect(given(await store.deleteJob(other.id))).toEqual({ number: 2, recordings: 0, deckKept: false });
  // the log too, while the store is still open
  const bytes = [file, `${file}-wal`].map((path) => readFileSync(path, 'latin1')).join('');
  for (const word of [
    'Xylodeck',
    'xylodeck',
    'Zarathustrian',
    'zarathustrian',
    'Quixotry',
    'Wolframic',
    'side-a.wav',
  ]) {
    expect(bytes.includes(word), word).toBe(false);
  }
});

it('an owner’s name that was taken out is gone from the file and its log', async () => {
  const { id } = given(await store.createJob({ deck: { name: 'deck' }, customer: 'Zarathustrian' }));
  const held = () => [file, `${file}-wal`].map((path) => readFileSync(path, 'latin1')).join('');
  expect(held()).toContain('Zarathustrian');
  await store.changeJob(id, { changes: [{ path: ['customer'], was: 'Zarathustrian', is: '' }] });
  expect(given(await store.job(id)).customer).toBe('');
  expect(held().toLowerCase()).not.toContain('zarathustrian');
});

it('10,000 jobs: a page and a search each in under 100 ms', async () => {
  const many = join(folder.path, 'many.sqlite');
  await fillStore(many, 10_000);
  const full = await openStore(many);
  const times = await askedOf(full, 10_000);
  await full.close();
  // of processor time: a busy machine must not decide it
  for (const [name, { processor }] of times) expect(processor, name).toBeLessThan(100);
}, 60_000);
