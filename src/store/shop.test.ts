import { expect, it } from 'vitest';
import { deckReading } from '../core/advise/budget/learnRecord.ts';
import type { JudgedFinding, SideDocument } from '../core/advise/document.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { freshStore } from './fresh.fixture.ts';
import { given as found } from './scratch.fixture.ts';

const fresh = () => freshStore();

const figure = (quantity: string, value: number, more: Partial<JudgedFinding> = {}): JudgedFinding => ({
  quantity,
  value,
  unit: '%',
  uncertainty: 0.02,
  bands: [0],
  note: '',
  verdict: 'good',
  ...more,
});
const side = (findings: JudgedFinding[], sha: string, more: Partial<SideDocument> = {}): SideDocument => ({
  ...tiltedSide,
  capture: { ...tiltedSide.capture, sha256: sha.repeat(64) },
  findings,
  advice: [],
  ...more,
});
it('the shop’s limits judge every reading of every job, the job’s own go over them, and a file carries both', async () => {
  const store = await fresh();
  const job = found(await store.createJob({ deck: { name: 'Deck' } }));
  found(await store.addCapture(job.id, { document: side([figure('speed-error', 0.2)], 'a'), station: 'run' }));
  const verdict = async (id: string, of = store) => {
    const now = found(await of.job(id));
    const whole = found(await of.capture(id, now.captures[0].id));
    expect(whole.document.findings[0].verdict).toBe(now.captures[0].findings[0].verdict);
    return whole.document.findings[0].verdict;
  };
  expect(await verdict(job.id)).toBe('good');
  await store.setShop({ limits: { class: 'archive' } });
  expect(await verdict(job.id)).toBe('adjust');
  expect(found(await store.job(job.id)).shop).toEqual({ limits: { class: 'archive' } });
  const exported = found(await store.exportJob(job.id, 'test'));
  const other = await fresh();
  const there = await other.importJob(exported);
  expect(await verdict(there.id, other)).toBe('adjust');
  const changed = await store.changeStation(job.id, 'run', {
    changes: [
      { path: ['limits', 'own', 'speed-error', 'good'], is: '0.25' },
      { path: ['limits', 'own', 'speed-error', 'bad'], is: '0.5' },
    ],
  });
  expect(changed.outcome).toBe('changed');
  expect(await verdict(job.id)).toBe('good');
  // the shop's take back: what was read stands as it was
  await store.setShop({});
  expect(await verdict(job.id)).toBe('good');
  await store.close();
  await other.close();
});

it('what a move may change elsewhere is the shop’s, and the job’s over it', async () => {
  const store = await fresh();
  const job = found(await store.createJob({ deck: { name: 'Deck' } }));
  for (const name of ['tilt', 'run'] as const)
    await store.changeStation(job.id, name, { status: { was: 'untouched', is: 'done' } });
  const turned = async (step: string): Promise<boolean | undefined> => {
    const { stations } = found(await store.move(job.id, { move: 'turn-shell', station: 'tilt', by: 0.35, step }));
    found(await store.undoMove(job.id, { step }));
    return stations.run?.marks?.[0].counts;
  };
  expect(await turned('one')).toBe(true);
  await store.setShop({ limits: { recheck: { tilt: '0.5' } } });
  expect(await turned('two')).toBe(false);
  await store.changeStation(job.id, 'run', { changes: [{ path: ['limits', 'recheck', 'tilt'], is: '0.3' }] });
  expect(await turned('three')).toBe(true);
  await store.close();
});

it('ten decks teach a record, each by its first reading; what was set aside teaches nothing', async () => {
  const store = await fresh();
  const key = '0123456789abcdef';
  const record = { name: 'Record', key };
  for (let i = 0; i < 10; i++) {
    expect((await store.learned(key)).learned).toBeNull();
    const job = found(await store.createJob({ deck: { name: `Deck ${i}` } }));
    const speed = 0.1 + 0.01 * (i % 2);
    found(
      await store.addCapture(job.id, {
        document: side([figure('speed-error', speed)], String.fromCharCode(97 + i), { record }),
        heardAt: '2026-01-02T00:00:00.000Z',
      }),
    );
    // after something was turned: not as found
    found(
      await store.addCapture(job.id, {
        document: side([figure('speed-error', 5)], String.fromCharCode(110 + i), { record }),
        heardAt: '2026-01-03T00:00:00.000Z',
      }),
    );
  }
  const { learned, decks } = await store.learned(key);
  expect(decks).toBe(10);
  expect(learned?.speedPercent?.mean).toBeCloseTo(0.105, 9);
  expect(learned?.record).toEqual(record);
  expect(await store.learned('fedcba9876543210')).toEqual({ learned: null, decks: 0 });
  const [{ id }] = (await store.jobs()).jobs;
  const first = found(await store.job(id)).captures[0];
  found(await store.changeCapture(id, first.id, { setAside: { why: 'wrong record' } }));
  // its second reading is now the deck's first
  expect((await store.learned(key)).learned).toBeNull();
  expect(deckReading([figure('speed-error', 5)]).speedPercent).toBe(5);
  await store.close();
});
