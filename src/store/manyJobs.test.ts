/** Lists longer than what one statement asks for, held against what was put in. */
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { everyDue, everyJob } from './everyPage.ts';
import { fillStore } from './manyJobs.fixture.ts';
import { scratchFolder } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

/** more than 1000: a word that stands in each is a common one; more than twice 500 */
const COUNT = 1_100;
const DECKS = 110;
const folder = scratchFolder();
let store: Store;
beforeAll(async () => {
  const place = join(folder.path, 'many.sqlite');
  await fillStore(place, COUNT);
  store = await openStore(place);
});
afterAll(async () => {
  await store?.close();
  folder.remove();
});

const all = Array.from({ length: COUNT }, (_, place) => COUNT - place);
const numbers = async (query: Parameters<Store['jobs']>[0]) =>
  (await store.jobs(query)).jobs.map(({ number }) => number);

it('all jobs come at once or in pages, newest first, each with its deck, owner and stations', async () => {
  const list = await store.jobs();
  expect(list.jobs.map(({ number }) => number)).toEqual(all);
  expect(list).not.toHaveProperty('next');
  for (const { number, deck, customer, stations, captures } of list.jobs) {
    expect([deck.id, customer, captures]).toEqual([`d${1 + (number % DECKS)}`, `owner ${number % 500}`, 0]);
    expect(Object.values(stations).every((status) => status === 'untouched')).toBe(true);
  }
  expect((await everyJob(store, {})).jobs).toEqual(list.jobs);
  expect(await numbers({ limit: 3, before: 600 })).toEqual([599, 598, 597]);
  expect((await store.jobs({ limit: 3, before: 600 })).next).toBe(597);
  expect((await store.jobs({ limit: COUNT })).next).toBeUndefined();
});

it('a common word and a rare one find the same as going through all would', async () => {
  const has = (word: string) => (number: number) =>
    ['job', String(number), 'owner', `o${number % 500}`, 'deck', String(1 + (number % DECKS))].some((one) =>
      one.startsWith(word),
    );
  for (const words of ['job', 'o7', 'o499', '10', 'deck', 'job o1', 'dec 7 own', 'none', 'o77 job'])
    expect(await numbers({ words }), words).toEqual(
      all.filter((number) => words.split(' ').every((word) => has(word)(number))),
    );
  expect(await numbers({ words: 'job', limit: 2, before: 10 })).toEqual([9, 8]);
});

it('decks come with all their jobs, newest first, and are found by words common and rare', async () => {
  const { decks } = await store.decks();
  expect(decks).toHaveLength(DECKS);
  for (const { id, jobs } of decks)
    expect(jobs).toEqual(all.filter((number) => `d${1 + (number % DECKS)}` === id).map((number) => `j${number}`));
  const found = async (words: string) => (await store.decks({ words })).decks.map(({ id }) => id).sort();
  expect(await found('deck 7')).toEqual(['d7', 'd70', 'd71', 'd72', 'd73', 'd74', 'd75', 'd76', 'd77', 'd78', 'd79']);
  expect(await found('de')).toHaveLength(DECKS);
  expect(await found('none')).toEqual([]);
});

it('the styli of all decks are those of their pages, each deck once', async () => {
  const whole = (await store.stylusLedger()).styli;
  const pages = [];
  for (let before: number | undefined; ; ) {
    const page = await store.stylusLedger({ limit: 40, before });
    pages.push(...page.styli);
    if (page.next === undefined) break;
    before = page.next;
  }
  const named = (styli: typeof whole) => styli.map((one) => JSON.stringify(one)).sort();
  expect(named(pages)).toEqual(named(whole));
  expect(new Set(whole.map(({ deck }) => deck.id)).size).toBe(DECKS);
});

it('next checks are those of the newest job of every deck, in pages as whole', async () => {
  const { due, counts } = await everyDue(store, '2026-05-20');
  expect(due.map(({ job }) => job.number).sort((a, b) => a - b)).toEqual(all.slice(0, DECKS).sort((a, b) => a - b));
  expect(counts.due + counts.soon + counts.byHours + counts.later).toBe(DECKS);
  for (const { job, date, hours, stylusHours } of due)
    expect([date, hours, stylusHours]).toEqual([`2026-0${1 + (job.number % 9)}-01`, 500, 120]);
  const dates = due.map(({ date }) => date);
  expect(dates).toEqual([...dates].sort());
});
