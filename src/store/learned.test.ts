import { afterEach, beforeEach, expect, it } from 'vitest';
import type { SideDocument } from '../core/advise/document.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

const key = '0123456789abcdef';
let store: Store;
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
});
afterEach(() => store.close());

let files = 0;
/** A side of the record whose speed error is as told. */
function side(speed: number, record: { key: string; name: string } | null = { key, name: 'Record' }): SideDocument {
  const [figure] = tiltedSide.findings;
  const sha256 = (++files).toString(16).padStart(64, '0');
  return {
    ...tiltedSide,
    ...(record === null ? {} : { record }),
    capture: { ...tiltedSide.capture, sha256 },
    findings: [{ ...figure, quantity: 'speed-error', unit: '%', value: speed }],
    advice: [],
  };
}
const day = (n: number): string => new Date(Date.UTC(2026, 0, 1 + n)).toISOString();
const newJob = async (name: string) => given(await store.createJob({ deck: { name } }));
const heard = (id: string, document: SideDocument, n: number, practice = false) =>
  store.addCapture(id, { document, heardAt: day(n), practice }).then(given);

/** Ten decks of their own, each with a first reading and one after it. */
async function tenDecks(): Promise<string[]> {
  const ids: string[] = [];
  for (let n = 0; n < 10; n++) {
    const { id } = await newJob(`deck ${n}`);
    await heard(id, side(9), 20 + n);
    await heard(id, side(n / 100), n);
    ids.push(id);
  }
  return ids;
}
const mean = async () => (await store.learned(key)).learned?.speedPercent?.mean;

it('a record is learned from the first reading of each deck, by when it was heard', async () => {
  await tenDecks();
  const { learned, decks } = await store.learned(key);
  expect(decks).toBe(10);
  expect(learned?.record).toEqual({ name: 'Record', key });
  // 0, 0.01 … 0.09
  expect(learned?.speedPercent?.mean).toBeCloseTo(0.045, 12);
  expect(learned?.speedPercent?.decks).toBe(10);
});

it('nothing is learned of a record that nobody played, nor from sides without one', async () => {
  const { id } = await newJob('deck');
  await heard(id, side(1, null), 1);
  await heard(id, side(1, { key: 'f'.repeat(16), name: 'other' }), 2);
  expect(await store.learned(key)).toEqual({ learned: null, decks: 0 });
  expect((await store.learned('f'.repeat(16))).decks).toBe(1);
});

it('practice sides, recordings set aside and jobs set aside teach nothing', async () => {
  const [first, second] = await tenDecks();
  const other = await newJob('practice');
  await heard(other.id, side(0.5), 0, true);
  expect((await store.learned(key)).decks).toBe(10);
  given(await store.setJobAside(first, 'a trial'));
  expect((await store.learned(key)).decks).toBe(9);
  given(await store.setJobAside(first, null));
  expect(await mean()).toBeCloseTo(0.045, 12);
  const { captures } = given(await store.job(second));
  for (const { id } of captures) given(await store.changeCapture(second, id, { setAside: { why: 'x' } }));
  expect((await store.learned(key)).decks).toBe(9);
});

it('two jobs of one deck are one deck, whose first reading is the earlier one', async () => {
  await tenDecks();
  const [{ deck }] = (await store.jobs({ limit: 1 })).jobs;
  const again = given(await store.createJob({ deck: { id: deck.id } }));
  await heard(again.id, side(0.09 + 0.02), -5);
  expect((await store.learned(key)).decks).toBe(10);
  // 0.09 became 0.11
  expect(await mean()).toBeCloseTo(0.047, 12);
});
