import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

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

it('a job is deleted with all that hangs on it, and its deck with the last of them', async () => {
  const { id, deck } = given(await store.createJob({ deck: { name: 'deck' }, customer: 'Okafor' }));
  const first = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' })).added;
  await store.addCapture(id, { document: straightSide });
  await store.setOutcome(id, first.advice[0].id, { did: 'done' });
  await store.addFitting(id, { kind: 'stylus', name: 'S' });
  await store.setLast({ jobId: id, station: 'tilt' });
  const other = given(await store.createJob({ deck: { id: deck.id } }));
  expect(given(await store.deleteJob(id))).toEqual({ number: 1, recordings: 2, deckKept: true });
  expect((await store.deleteJob(id)).outcome).toBe('not-found');
  expect(await store.last()).toBeNull();
  expect(await numbers('okafor')).toEqual([]);
  expect(given(await store.deleteJob(other.id))).toEqual({ number: 2, recordings: 0, deckKept: false });
  expect(await store.decks()).toEqual({ decks: [] });
});

it('decks come in pages by name, each with its jobs, and are found by name and by words', async () => {
  const names = ['b', 'a', 'b', 'C deck', 'ä'];
  const made = [];
  for (const name of names) made.push(given(await store.createJob({ deck: { name, description: 'belt' } })));
  const again = given(await store.createJob({ deck: { id: made[1].deck.id } }));
  const seen: [string, number][] = [];
  for (let after: string | undefined; ; ) {
    const page = await store.decks({ limit: 2, ...(after === undefined ? {} : { after }) });
    seen.push(...page.decks.map(({ name, jobs }): [string, number] => [name, jobs.length]));
    if (page.next === undefined) break;
    after = page.next;
  }
  expect(seen).toEqual([
    ['C deck', 1],
    ['a', 2],
    ['b', 1],
    ['b', 1],
    ['ä', 1],
  ]);
  expect((await store.decks({ named: ' A ' })).decks[0].jobs).toEqual([again.id, made[1].id]);
  expect((await store.decks({ named: 'Ä' })).decks.map(({ name }) => name)).toEqual(['ä']);
  expect((await store.decks({ words: 'dec belt' })).decks.map(({ name }) => name)).toEqual(['C deck']);
  await store.changeJob(made[0].id, { changes: [{ path: ['deck', 'name'], was: 'b', is: 'Renamed' }] });
  expect((await store.decks({ named: 'renamed' })).decks).toHaveLength(1);
  expect(await store.decks({ after: 'none', limit: 2 })).toEqual({ decks: [] });
});
