import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { stationNames } from '../core/job/station.ts';
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
  const { id } = given(await store.createJob({ deck: { name: 'deck' } }));
  await store.close();
  const database = new Database(file);
  const job = database.prepare(
    'insert into jobs (id, number, title, deck_id, customer, notes, created_at, updated_at, revision, practice) ' +
      'select ?, ?, ?, deck_id, ?, notes, created_at, updated_at, revision, practice from jobs where id = ?',
  );
  const station = database.prepare(
    "insert into stations values (?, ?, 'untouched', null, '{}', 0, '2026-03-04T09:00:00.000Z')",
  );
  const word = database.prepare('insert into words values (?, ?, null)');
  database.transaction(() => {
    for (let number = 2; number <= 10_000; number++) {
      job.run(`j${number}`, number, `Job ${number}`, `owner ${number % 500}`, id);
      for (const name of stationNames) station.run(`j${number}`, name);
      for (const one of ['job', String(number), 'owner', `o${number % 500}`]) word.run(one, `j${number}`);
    }
  })();
  database.close();
  store = await openStore(file, countingOrigin());
  const best = async (work: () => Promise<{ readonly jobs: readonly unknown[] }>): Promise<number> => {
    const times: number[] = [];
    for (let i = 0; i < 7; i++) {
      const from = performance.now();
      expect((await work()).jobs.length).toBeGreaterThan(0);
      times.push(performance.now() - from);
    }
    return Math.min(...times);
  };
  const [page, rare, common] = [
    await best(() => store.jobs({ limit: 100, before: 5000 })),
    await best(() => store.jobs({ limit: 100, words: 'o77' })),
    await best(() => store.jobs({ limit: 100, words: 'own job' })),
  ];
  console.log(
    `10,000 jobs: page ${page.toFixed(1)} ms, rare word ${rare.toFixed(1)} ms, two common ones ${common.toFixed(1)} ms`,
  );
  for (const time of [page, rare, common]) expect(time).toBeLessThan(100);
}, 60_000);
