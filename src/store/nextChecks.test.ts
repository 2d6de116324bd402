import { afterEach, beforeEach, expect, it } from 'vitest';
import { copyJobs } from './copyJobs.ts';
import { everyDue } from './everyPage.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

const TODAY = '2026-03-10';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

const typed = (id: string, station: 'intake' | 'hand-over', key: string, is: string) =>
  store.changeStation(id, station, { changes: [{ path: [key], is }] });

async function deckDue(name: string, due: { readonly date?: string; readonly hours?: string }) {
  const made = given(await store.createJob({ deck: { name }, customer: `owner of ${name}` }));
  if (due.date !== undefined) await typed(made.id, 'hand-over', 'dueDate', due.date);
  if (due.hours !== undefined) await typed(made.id, 'hand-over', 'dueHours', due.hours);
  return made;
}

it('comes by pages: due, soon, by hours, later; each in its order, and counted whole', async () => {
  await deckDue('later', { date: '2027-01-01' });
  await deckDue('soon', { date: '2026-03-20' });
  await deckDue('by hours', { hours: '500' });
  await deckDue('due', { date: '2026-03-10' });
  await deckDue('none', {});
  await deckDue('by hours too', { hours: '400' });
  await deckDue('due as well', { date: '2026-03-10' });
  await deckDue('due long since', { date: '2025-12-31' });
  const names = [
    'due long since due',
    'due as well due',
    'due due',
    'soon soon',
    'by hours too by-hours',
    'by hours by-hours',
    'later later',
  ];
  const told = ({ deck, state }: { deck: { name: string }; state: string }) => `${deck.name} ${state}`;
  expect((await store.dueList(TODAY)).due.map(told)).toEqual(names);
  for (const limit of [1, 2, 3, 6]) {
    const seen: string[] = [];
    for (let after: string | undefined; ; ) {
      const page = await store.dueList(TODAY, { limit, after });
      expect(page.counts).toEqual({ due: 3, soon: 1, byHours: 2, later: 1 });
      seen.push(...page.due.map(told));
      if (page.next === undefined) break;
      expect(page.due).toHaveLength(limit);
      after = page.next;
    }
    expect(seen).toEqual(names);
  }
  expect((await store.dueList(TODAY)).due[0].owner).toBe('owner of due long since');
});

/** A small generator with a seed, so that a failure can be had again. */
function chanceOf(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

it.each([1, 2, 3])(
  'says the same whatever led there: changes at random, then every job taken over anew (%i)',
  async (seed) => {
    const chance = chanceOf(seed);
    const jobs: { id: string; deck: string; fittings: string[] }[] = [];
    const some = () => jobs[chance(jobs.length)];
    const steps: (() => Promise<unknown>)[] = [
      async () => {
        const made = given(
          await store.createJob({
            deck: jobs.length === 0 || chance(2) === 0 ? { name: 'deck' } : { id: some().deck },
          }),
        );
        jobs.push({ id: made.id, deck: made.deck.id, fittings: [] });
      },
      () => typed(some().id, 'hand-over', 'dueDate', chance(5) === 0 ? '' : `2026-0${1 + chance(9)}-01`),
      () => typed(some().id, 'hand-over', 'dueHours', chance(3) === 0 ? '' : String(100 + chance(900))),
      () => typed(some().id, 'intake', 'stylusHours', String(chance(400))),
      () => typed(some().id, 'intake', 'cartridge', ['A', 'B'][chance(2)]),
      async () => {
        const job = some();
        const at = `2026-0${1 + chance(9)}-0${1 + chance(9)}T09:00:00.000Z`;
        const kind = (['cartridge', 'stylus'] as const)[chance(2)];
        const { fitting } = given(await store.addFitting(job.id, { kind, name: 'X', hours: chance(300), at }));
        if (fitting !== null) job.fittings.push(fitting);
      },
      async () => {
        const job = some();
        const fitting = job.fittings.pop();
        if (fitting !== undefined) given(await store.takeFittingBack(job.id, fitting));
      },
      () => store.setJobAside(some().id, chance(4) === 0 ? 'a trial' : null),
      async () => {
        if (jobs.length > 3) given(await store.deleteJob(jobs.splice(chance(jobs.length), 1)[0].id));
      },
    ];
    for (let step = 0; step < 4; step++) await steps[0]();
    let any = 0;
    for (let round = 0; round < 5; round++) {
      for (let step = 0; step < 12; step++) await steps[chance(steps.length)]();
      const other = await openStore(':memory:', countingOrigin());
      await copyJobs(store, other, 'test');
      const { due } = await everyDue(store, TODAY);
      expect((await everyDue(other, TODAY)).due).toEqual(due);
      any += due.length;
      await other.close();
    }
    expect(any).toBeGreaterThan(3);
  },
);
