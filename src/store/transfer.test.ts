import { describe, expect, it } from 'vitest';
import { type JobFile, readJobFile } from '../core/job/jobFile.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { say } from '../core/words/statement.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

/** A job with something in every table. */
async function fullJob(store: Store): Promise<string> {
  const { id } = given(
    await store.createJob({
      deck: { name: 'studio deck', description: 'quartz, “direct” & <heavy>' },
      customer: 'C-9',
      notes: 'ä\n',
    }),
  );
  await store.changeStation(id, 'weigh', {
    changes: [
      { path: ['target'], is: '1.50' },
      { path: ['masses'], is: [{ mass: '2', within: '', reading: '2.01' }] },
      { path: ['movedHere'], is: null },
    ],
    status: { was: 'untouched', is: 'done' },
  });
  await store.move(id, { move: 'slide', station: 'place', note: '1 mm' });
  const { added } = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' }));
  await store.setOutcome(id, added.advice[0].id, { did: 'done', note: 'by hand' });
  await store.addCapture(id, { document: straightSide, station: 'run' });
  const { fitting } = given(await store.addFitting(id, { kind: 'preamp', name: 'other preamp', was: 'first preamp' }));
  const last = { ...straightSide, capture: { ...straightSide.capture, sha256: 'd'.repeat(64) } };
  const late = given(await store.addCapture(id, { document: last, station: 'run' })).added;
  await store.changeCapture(id, late.capture.id, { epoch: fitting, kind: 'pass' });
  return id;
}

const through = (file: JobFile): JobFile => {
  const read = readJobFile(JSON.parse(JSON.stringify(file)));
  if (!read.found) throw new Error(say(read.why));
  return read.file;
};

describe('export and import', () => {
  it('lose nothing between two stores', async () => {
    const from = await freshStore(countingOrigin());
    const to = await freshStore(countingOrigin());
    const file = given(await from.exportJob(await fullJob(from), 'platterside 0'));
    expect(file.advice[0].checks).toHaveLength(2);
    const { id, number, outcome } = await to.importJob(through(file));
    expect([id, number, outcome]).toEqual([file.job.id, 1, 'imported']);
    const back = given(await to.exportJob(id, 'platterside 0'));
    expect({ ...back, exportedAt: '' }).toEqual({ ...file, exportedAt: '' });
    const job = given(await to.job(id));
    expect(job.beforeAfter).toHaveLength(5);
    await from.close();
    await to.close();
  });

  it('never overwrite: the same file twice is told, and two jobs of one deck only where that is asked for', async () => {
    const store = await freshStore(countingOrigin());
    const first = await fullJob(store);
    const before = given(await store.job(first));
    const file = given(await store.exportJob(first, 'x'));
    expect(await store.importJob(through(file))).toEqual({ outcome: 'here-already', id: first, number: 1 });
    const nameless = through({ ...file, job: { ...file.job, customer: '' } });
    expect((await store.importJob(nameless)).outcome).toBe('here-already');
    expect((await store.jobs()).jobs).toHaveLength(1);
    const second = await store.importJob(through(file), { asNew: true });
    expect(second.number).toBe(2);
    expect(second.id).not.toBe(first);
    expect(given(await store.job(first))).toEqual(before);
    expect(given(await store.job(second.id)).title).toBe('Job 2 · studio deck');
    expect((await store.decks()).decks).toHaveLength(1);
    const { description } = before.deck;
    await store.changeJob(first, {
      changes: [{ path: ['deck', 'description'], was: description, is: 'rebuilt' }],
    });
    await store.importJob(through(file), { asNew: true });
    expect((await store.decks()).decks.map((deck) => deck.description).sort()).toEqual([
      'quartz, “direct” & <heavy>',
      'rebuilt',
    ]);
    await store.close();
  });

  it('a job that was changed since is neither overwritten nor doubled; one that was deleted comes back with its ids', async () => {
    const store = await freshStore(countingOrigin());
    const first = await fullJob(store);
    const file = given(await store.exportJob(first, 'x'));
    await store.changeJob(first, { changes: [{ path: ['notes'], was: 'ä\n', is: 'later' }] });
    expect(await store.importJob(through(file))).toEqual({ outcome: 'here-otherwise', id: first, number: 1 });
    expect(given(await store.job(first)).notes).toBe('later');
    await store.deleteJob(first);
    expect(await store.importJob(through(file))).toEqual({ outcome: 'imported', id: first, number: 1 });
    const back = given(await store.exportJob(first, 'x'));
    expect({ ...back, exportedAt: '' }).toEqual({ ...file, exportedAt: '' });
    await store.close();
  });

  it('ids that are taken by another job, or are none, become new ones', async () => {
    const store = await freshStore(countingOrigin());
    const file = given(await store.exportJob(await fullJob(store), 'x'));
    const other = { ...file, job: { ...file.job, id: '../x', createdAt: '2020-01-01T00:00:00.000Z' } };
    const { id, outcome } = await store.importJob(through(other));
    expect(outcome).toBe('imported');
    expect(id).toMatch(/^id-/);
    const ids = given(await store.job(id)).captures.map((one) => one.id);
    expect(ids).toHaveLength(file.captures.length);
    expect(ids.filter((one) => file.captures.some((capture) => capture.id === one))).toEqual([]);
    await store.close();
  });

  it('an imported job numbered 9007199254740991 leaves a number for every new one', async () => {
    const store = await freshStore(countingOrigin());
    const file = given(await store.exportJob(await fullJob(store), 'x'));
    for (const number of [Number.MAX_SAFE_INTEGER, 1_000_000_000, 1_000_000]) {
      const job = { ...file.job, number, title: `Job ${number} · studio deck` };
      const taken = await store.importJob(through({ ...file, job }), { asNew: true });
      expect(taken.number).toBeLessThan(10);
      expect(given(await store.job(taken.id)).title).toBe(`Job ${taken.number} · studio deck`);
    }
    const kept = await store.importJob(through({ ...file, job: { ...file.job, number: 999_999 } }), { asNew: true });
    expect(kept.number).toBe(999_999);
    const next = given(await store.createJob({ deck: { name: 'next' } }));
    expect(next.number).toBe(1_000_000);
    expect(given(await store.findJob('1000000'))).toBe(next.id);
    expect((await store.jobs()).unreadable).toEqual([]);
    await store.close();
  });

  it('say when there is no such job', async () => {
    const store = await freshStore(countingOrigin());
    expect(await store.exportJob('none', 'x')).toEqual({ outcome: 'not-found', why: 'There is no job none.' });
    await store.close();
  });
});
