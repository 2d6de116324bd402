/** What belongs to one job is never touched through another, and what is acknowledged is on the disk. */
import { sql } from 'kysely';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { freshStore } from './fresh.fixture.ts';
import { openDatabase } from './openDatabase.ts';
import { countingOrigin, given, scratchFolder } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

const newJob = async (name: string) => given(await store.createJob({ deck: { name } })).id;

it('one recording heard for two jobs is a recording of each', async () => {
  const [one, other] = [await newJob('one'), await newJob('other')];
  await store.addCapture(one, { document: tiltedSide });
  expect(given(await store.addCapture(other, { document: tiltedSide })).fresh).toBe(true);
  expect(given(await store.job(other)).captures).toHaveLength(1);
});

it('what came of an advice is not written through the id of another job', async () => {
  const [one, other] = [await newJob('one'), await newJob('other')];
  const [advice] = given(await store.addCapture(one, { document: tiltedSide })).added.advice;
  const before = given(await store.job(one)).advice;
  expect(await store.setOutcome(other, advice.id, { did: 'done', note: 'not mine' })).toEqual({
    outcome: 'not-found',
    why: `Job ${other} has no advice ${advice.id}.`,
  });
  expect(given(await store.job(one)).advice).toEqual(before);
});

it('advice stands in the order given, recording after recording', async () => {
  const id = await newJob('one');
  const [first] = tiltedSide.advice;
  const twice = { ...tiltedSide, advice: [first, { ...first, action: 'speed' }] };
  const later = { ...straightSide, advice: [first, { ...first, action: 'swap-channels' }] };
  await store.addCapture(id, { document: twice });
  await store.addCapture(id, { document: later });
  expect(given(await store.job(id)).advice.map(({ advice }) => advice.action)).toEqual([
    first.action,
    'speed',
    first.action,
    'swap-channels',
  ]);
});

it('two jobs of one deck, carried to another store, are two jobs of one deck there', async () => {
  const one = given(await store.createJob({ deck: { name: 'studio deck' } }));
  const other = given(await store.createJob({ deck: { id: one.deck.id } }));
  const to = await freshStore(countingOrigin());
  for (const { id } of [one, other]) await to.importJob(given(await store.exportJob(id, 'x')));
  const { decks } = await to.decks();
  expect(decks.map(({ jobs }) => jobs.length)).toEqual([2]);
  await to.close();
});

it('waits for the disk with every change, and lets nothing hang on a job that is not there', async () => {
  const folder = scratchFolder();
  const db = await openDatabase(`${folder.path}/bench.sqlite`, () => '2026-03-04T09:00:00.000Z');
  // SQLite: 2 is FULL, the write-ahead log is synchronised after each transaction
  const { rows } = await sql<{ synchronous: number }>`pragma synchronous`.execute(db);
  expect(rows[0].synchronous).toBeGreaterThanOrEqual(2);
  const orphan = db
    .insertInto('stations')
    .values({
      job_id: 'none',
      station: 'tilt',
      status: 'now',
      stale_because_json: null,
      data_json: '{}',
      revision: 0,
      updated_at: '',
    })
    .execute();
  await expect(orphan).rejects.toThrow(/FOREIGN KEY/);
  await db.destroy();
  folder.remove();
});
