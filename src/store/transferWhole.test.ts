/** A job goes out and comes in with everything, under its own ids or under new ones that point to each other as the old ones did. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { demoJob } from '../core/job/demoJob.ts';
import type { JobFile } from '../core/job/jobFile.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { cameraJpeg } from './jpeg.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

let [from, to]: Store[] = [];
beforeEach(async () => {
  [from, to] = [await openStore(':memory:', countingOrigin()), await openStore(':memory:', countingOrigin())];
});
afterEach(async () => {
  await from.close();
  await to.close();
});

const plain = (file: JobFile): JobFile => JSON.parse(JSON.stringify({ ...file, exportedAt: '' }));
const out = async (store: Store, id: string) => plain(given(await store.exportJob(id, 'x')));

/** A job with something in every list of its file. */
async function full(): Promise<string> {
  const { id } = given(await from.createJob({ deck: { name: 'deck', description: 'd' }, customer: 'c', notes: 'n' }));
  const { added } = given(await from.addCapture(id, { document: tiltedSide, station: 'intake' }));
  await from.setOutcome(id, added.advice[0].id, { did: 'done', note: 'by hand' });
  await from.addCapture(id, { document: straightSide });
  const { fitting } = given(await from.addFitting(id, { kind: 'stylus', name: 'S', was: 'R', hours: 3 }));
  const document = { ...straightSide, capture: { ...straightSide.capture, sha256: null, file: 'live' } };
  const late = given(await from.addCapture(id, { document, practice: true })).added.capture.id;
  await from.changeCapture(id, late, { epoch: fitting, kind: 'pass', setAside: { why: 'w' } });
  await from.addPhotograph(id, { id: 'p', station: 'fit', note: 'tip', jpeg: cameraJpeg(40, 30) });
  await from.changeJob(id, { changes: [{ path: ['recordFile'], was: '', is: 'house' }] });
  await from.setJobAside(id, 'a trial');
  return id;
}

/** The same file with every id written by its place. */
function byPlace(file: JobFile): unknown {
  const ids = [
    file.job.id,
    ...[...file.job.fittings, ...file.captures, ...file.advice, ...file.photographs].map(({ id }) => id),
  ];
  return JSON.parse(
    ids.reduce((text, id, place) => text.replaceAll(`"${id}"`, `"place ${place}"`), JSON.stringify(file)),
  );
}

it('under its own ids nothing of it is another', async () => {
  const file = await out(from, await full());
  expect(file.job).toMatchObject({ recordFile: 'house', setAside: { why: 'a trial' }, practice: false });
  expect(file.advice[0].checkedBy).toBe(file.captures[1].id);
  expect(file.captures[2]).toMatchObject({
    practice: true,
    saidKind: 'pass',
    saidEpoch: file.job.fittings[0].id,
    setAside: { why: 'w' },
  });
  expect(await to.importJob(file)).toEqual({ outcome: 'imported', id: file.job.id, number: 1 });
  expect(await out(to, file.job.id)).toEqual(file);
  expect(await to.importJob(file)).toEqual({ outcome: 'here-already', id: file.job.id, number: 1 });
  // found by its words, and counted in no list over jobs while it is set aside
  expect((await to.jobs({ words: 'deck c n' })).jobs).toHaveLength(1);
});

it('as a job of its own each of its ids is a new one, which stands wherever the old one stood', async () => {
  const file = await out(from, await full());
  const { id, number, outcome } = await from.importJob(file, { asNew: true });
  expect([number, outcome]).toEqual([2, 'imported']);
  const copy = await out(from, id);
  const ids = (one: JobFile) => [
    one.job.id,
    ...[...one.job.fittings, ...one.captures, ...one.advice, ...one.photographs].map((row) => row.id),
  ];
  expect(ids(copy).filter((one) => ids(file).includes(one))).toEqual([]);
  const renumbered = { ...file, job: { ...file.job, number: 2, title: 'Job 2 · deck' } };
  expect(byPlace(copy)).toEqual(byPlace(renumbered));
});

it('an epoch that a person named, whose fitting is not in the file, is named on', async () => {
  const file = await out(from, await full());
  const without = { ...file, job: { ...file.job, fittings: [] } };
  const { id } = await to.importJob(without, { asNew: true });
  expect((await out(to, id)).captures[2].saidEpoch).toBe(file.captures[2].saidEpoch);
});

it('a practice job is one there too', async () => {
  const demo = demoJob({
    at: '2026-03-04T09:00:00.000Z',
    madeBy: 'x',
    sides: [{ document: tiltedSide, station: 'intake', heardAt: '2026-03-04T08:00:00.000Z' }],
  });
  expect(demo.job.practice).toBe(true);
  const { id } = await to.importJob(demo);
  const file = await out(to, id);
  expect(file.job.practice).toBe(true);
  expect(given(await to.job(id)).practice).toBe(true);
  expect(await to.importJob(file)).toMatchObject({ outcome: 'here-already' });
});

it('a job that was begun at the same time and tells the same is it, whatever its id; one of its id that does not is told', async () => {
  const file = await out(from, await full());
  const renamed = { ...file, job: { ...file.job, id: 'other' } };
  expect(await from.importJob(renamed)).toMatchObject({ outcome: 'here-already', id: file.job.id });
  const changed = { ...file, job: { ...file.job, notes: 'since' } };
  expect(await from.importJob(changed)).toEqual({ outcome: 'here-otherwise', id: file.job.id, number: 1 });
  expect(await from.importJob({ ...renamed, job: { ...renamed.job, notes: 'since' } })).toMatchObject({
    outcome: 'imported',
    id: 'other',
    number: 2,
  });
});

it('a deck of the file is the one here where it is unchanged, and a new one beside it where its name or words are others', async () => {
  const { id, deck } = given(await from.createJob({ deck: { name: 'deck', description: 'd' } }));
  const file = await out(from, id);
  const deckOf = async (change: object) => {
    const { id: made } = await from.importJob(
      { ...file, job: { ...file.job, deck: { ...deck, ...change } } },
      { asNew: true },
    );
    return given(await from.job(made)).deck;
  };
  expect(await deckOf({})).toEqual(deck);
  for (const change of [{ name: 'other' }, { description: 'other' }]) {
    const made = await deckOf(change);
    expect(made).toEqual({ ...deck, ...change, id: made.id });
    expect(made.id).not.toBe(deck.id);
  }
  expect((await from.decks({ named: 'other' })).decks).toHaveLength(1);
  expect((await from.decks({ words: 'oth' })).decks).toHaveLength(2);
});

it('the shop’s limits go along with a file, unless it is a copy that brings the shop', async () => {
  const { id } = given(await from.createJob({ deck: { name: 'deck' } }));
  await from.setShop({ limits: { class: 'archive' } });
  const run = async (asKept: boolean) => given(await from.exportJob(id, 'x', { asKept })).job.stations.run.data;
  expect(await run(true)).toEqual({});
  expect(await run(false)).toEqual({ limits: { class: 'archive' } });
});
