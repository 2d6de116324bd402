import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { deckHistoryCsv } from '../core/job/deckHistory.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

const sideOf = (letter: string, by: number) => ({
  ...straightSide,
  capture: { ...straightSide.capture, sha256: letter.repeat(64) },
  findings: straightSide.findings.map((one) =>
    typeof one.value === 'number' ? { ...one, value: one.value + by } : one,
  ),
  advice: [],
});

/** A job of the deck that came, was measured, and left as `straightSide` has it. */
async function visit(deck: string | null, came: ReturnType<typeof sideOf> | typeof tiltedSide, cartridge = 'A') {
  const made = given(await store.createJob({ deck: deck === null ? { name: 'studio deck' } : { id: deck } }));
  await store.changeStation(made.id, 'intake', { changes: [{ path: ['cartridge'], is: cartridge }] });
  await store.addCapture(made.id, { document: came, station: 'intake' });
  return made;
}

const separation = async (deck: string) =>
  given(await store.deckHistory(deck)).figures.find(({ quantity }) => quantity === 'separation-left-to-right');

describe("a deck's history", () => {
  it('holds how it came against how it left last, and not the work between', async () => {
    const first = await visit(null, tiltedSide);
    await store.addCapture(first.id, { document: straightSide, station: 'run' });
    const second = await visit(first.deck.id, sideOf('e', -1));
    await store.addCapture(second.id, { document: sideOf('f', 0.5), station: 'run' });
    const history = given(await store.deckHistory(first.deck.id));
    expect(history.jobs.map(({ number }) => number)).toEqual([1, 2]);
    const figure = await separation(first.deck.id);
    expect(figure?.limit).toMatchObject({ sense: 'above' });
    expect(figure?.readings.map(({ job, when, drift }) => [job, when, drift?.change ?? null, drift?.beyond])).toEqual([
      [1, 'received', null, undefined],
      [1, 'left', null, undefined],
      [2, 'received', -1, true],
      [2, 'left', null, undefined],
    ]);
    const rows = deckHistoryCsv(history).split('\r\n');
    expect(rows[0]).toContain('drift_beyond_uncertainty');
    expect(rows.filter((row) => row.startsWith('studio deck,separation-left-to-right'))).toHaveLength(4);
  });

  it('compares no two cartridges, nor a recording set aside', async () => {
    const first = await visit(null, straightSide);
    const second = await visit(first.deck.id, sideOf('e', -1), 'B');
    expect((await separation(first.deck.id))?.readings.map(({ drift }) => drift)).toEqual([null, null]);
    const { captures } = given(await store.job(second.id));
    await store.changeCapture(second.id, captures[0].id, { setAside: { why: 'wrong deck' } });
    expect((await separation(first.deck.id))?.readings).toHaveLength(1);
  });

  it('says when there is no such deck', async () => {
    expect(await store.deckHistory('none')).toEqual({ outcome: 'not-found', why: 'There is no deck none.' });
  });
});

it('the ledger goes by pages of decks, those that were here last first, each with all its jobs', async () => {
  const old = await visit(null, tiltedSide, 'old');
  for (const cartridge of ['B', 'C']) {
    const made = given(await store.createJob({ deck: { name: `deck of ${cartridge}` } }));
    await store.changeStation(made.id, 'intake', { changes: [{ path: ['cartridge'], is: cartridge }] });
  }
  const told = async (page?: { limit: number; before?: number }) => {
    const { styli, next } = await store.stylusLedger(page);
    return { cartridges: styli.map(({ cartridge, notes }) => `${cartridge} ${notes.length}`), next };
  };
  expect(await told({ limit: 2 })).toEqual({ cartridges: ['C 1', 'B 1'], next: 2 });
  expect(await told({ limit: 2, before: 2 })).toEqual({ cartridges: ['old 1'] });
  // a deck that comes back is on the first page, with all its jobs
  await visit(old.deck.id, sideOf('e', 0), 'old');
  expect(await told({ limit: 1 })).toEqual({ cartridges: ['old 2'], next: 4 });
  expect(await told({ limit: 3 })).toEqual({ cartridges: ['old 2', 'C 1', 'B 1'] });
  expect(await told()).toEqual({ cartridges: ['old 2', 'C 1', 'B 1'] });
});

it('styli go over jobs and the due list by the newest job of each deck', async () => {
  const first = await visit(null, tiltedSide);
  const typed = (id: string, station: 'intake' | 'hand-over', key: string, is: string) =>
    store.changeStation(id, station, { changes: [{ path: [key], is }] });
  await typed(first.id, 'intake', 'stylusHours', '120 h');
  await typed(first.id, 'hand-over', 'dueDate', '2026-01-01');
  expect((await store.dueList('2026-05-01')).due.map(({ state }) => state)).toEqual(['due']);
  await store.addFitting(first.id, { kind: 'stylus', name: 'A2', hours: 0 });
  const second = await visit(first.deck.id, sideOf('e', 0));
  expect((await store.dueList('2026-05-01')).due).toEqual([]);
  await typed(second.id, 'intake', 'stylusHours', '80');
  await typed(second.id, 'hand-over', 'dueHours', '500');
  const { styli } = await store.stylusLedger();
  expect(styli.map(({ cartridge, stylus, hours, fitted }) => [cartridge, stylus, hours, fitted])).toEqual([
    ['A', 'A2', 80, true],
    ['A', '', 120, false],
  ]);
  expect((await store.dueList('2026-05-01')).due).toMatchObject([
    { state: 'by-hours', hours: 500, stylusHours: 80, job: { number: 2 } },
  ]);
});
