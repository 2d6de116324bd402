import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
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

const numbers = async (words: string) => (await store.jobs({ words })).jobs.map(({ number }) => number);

describe('search', () => {
  it('finds by the beginning of each word in title, owner, notes, number and deck, whatever the spelling', async () => {
    const { deck } = given(
      await store.createJob({ deck: { name: 'Büro-Deck', description: 'schwer, 1978' }, customer: 'Müller' }),
    );
    given(await store.createJob({ deck: { id: deck.id }, customer: 'Okafor', notes: 'new belt' }));
    given(await store.createJob({ deck: { name: 'other' }, customer: 'Muller-Lang' }));
    expect(await numbers('MULL')).toEqual([3, 1]);
    expect(await numbers('buro 1978')).toEqual([2, 1]);
    expect(await numbers('belt okaf')).toEqual([2]);
    expect(await numbers('ullen')).toEqual([]);
    expect(await numbers('3')).toEqual([3]);
  });

  it('goes with every change of head and deck', async () => {
    const { id } = given(await store.createJob({ deck: { name: 'old name' }, customer: 'First' }));
    await store.changeJob(id, {
      changes: [
        { path: ['customer'], was: 'First', is: 'Second' },
        { path: ['deck', 'name'], was: 'old name', is: 'new name' },
      ],
    });
    expect(await numbers('first')).toEqual([]);
    expect(await numbers('second new')).toEqual([1]);
  });
});

it('pages are keyed by the number and miss none', async () => {
  for (let i = 0; i < 7; i++) given(await store.createJob({ deck: { name: `deck ${i}` } }));
  const seen: number[] = [];
  for (let before: number | undefined; ; ) {
    const page = await store.jobs({ limit: 3, ...(before === undefined ? {} : { before }) });
    seen.push(...page.jobs.map(({ number }) => number));
    if (page.next === undefined) break;
    before = page.next;
  }
  expect(seen).toEqual([7, 6, 5, 4, 3, 2, 1]);
  expect(await store.jobs({ limit: 7 })).not.toHaveProperty('next');
});

it('a job that was set aside stays, is left out where that is asked for, and counts in no list over jobs', async () => {
  const { id, deck } = given(await store.createJob({ deck: { name: 'deck' } }));
  await store.changeStation(id, 'hand-over', { changes: [{ path: ['dueDate'], is: '2026-01-01' }] });
  await store.changeStation(id, 'intake', { changes: [{ path: ['stylusHours'], is: '10' }] });
  expect(given(await store.setJobAside(id, 'a trial')).setAside?.why).toBe('a trial');
  expect((await store.jobs()).jobs[0].setAside?.why).toBe('a trial');
  expect((await store.jobs({ aside: 'left-out' })).jobs).toEqual([]);
  expect(given(await store.deckHistory(deck.id)).jobs).toEqual([]);
  expect((await store.stylusLedger()).styli).toEqual([]);
  expect((await store.dueList('2026-05-01')).due).toEqual([]);
  expect(given(await store.setJobAside(id, null)).setAside).toBeNull();
  expect((await store.dueList('2026-05-01')).due).toHaveLength(1);
  expect((await store.setJobAside('none', 'x')).outcome).toBe('not-found');
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
