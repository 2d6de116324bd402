import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { type BatchStore, openBatches } from '../store/batch/batchStore.ts';
import { type Cluster, startCluster } from '../store/cluster.fixture.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { movedCsv, reportCsv, statusText } from './batchCsv.ts';
import { placeOf, rootOf } from './roots.ts';
import { type Hands, workOn } from './work.ts';

const folder = scratchFolder();
let cluster: Cluster;
let stores: BatchStore[] = [];
let made = 0;
beforeAll(async () => {
  cluster = await startCluster();
});
afterEach(async () => {
  for (const store of stores) await store.close();
  stores = [];
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
});

let ids = 0;
const origin = { now: () => new Date().toISOString(), newId: () => `file-${String(++ids).padStart(6, '0')}` };
const record = 'r'.repeat(64);
const roots = [{ name: 'archive', folder: '/archive' }];

const open = async (place: string): Promise<BatchStore> => {
  const store = await openBatches(place, origin);
  stores.push(store);
  return store;
};
const file = (path: string, bytes = 100, root = 'archive') => ({ root, path, bytes, modifiedMs: 1 });
const claimer = (worker: string, leaseMs = 60_000) => ({ token: `${worker} ${++ids}`, worker, leaseMs });

/** The content of a file is the first letter of its name. */
function hands(measured: string[], measure: (path: string) => Promise<void> = async () => undefined): Hands {
  return {
    fingerprint: async (path) => path.split('/').pop()![0].repeat(64),
    async measure(path, text, sha256) {
      expect(text).toBe('{}');
      await measure(path);
      measured.push(path);
      return { ...tiltedSide, capture: { ...tiltedSide.capture, sha256 } };
    },
  };
}

describe.each([
  ['a file', async () => join(folder.path, `${++made}.sqlite`)],
  ['PostgreSQL', () => cluster.empty()],
])('batches in %s', (_, place) => {
  const begun = async (names: readonly string[]): Promise<{ at: string; store: BatchStore }> => {
    const at = await place();
    const store = await open(at);
    await store.addRecord({ id: record, name: 'a record', text: '{}' });
    await store.addFiles(
      record,
      'bench 1',
      names.map((name) => file(name)),
    );
    return { at, store };
  };
  const work = (store: BatchStore, one: Hands, more: object = {}) =>
    workOn({ store, roots, hands: [one, one], method: '2', worker: 'w', newToken: () => `t${++ids}`, ...more });

  it('measure every content once, with several workers at it, and say so', async () => {
    const names = Array.from(
      { length: 20 },
      (_, place) => `${'abcdefghij'[place % 10]}/${'abcdefghij'[place % 10]}${place}.wav`,
    );
    const { at, store } = await begun(names);
    const measured: string[] = [];
    const other = await open(at);
    await Promise.all([work(store, hands(measured)), work(other, hands(measured))]);
    expect(
      measured
        .map((path) => path.split('/').pop()![0])
        .sort()
        .join(''),
    ).toBe('abcdefghij');
    const status = await store.status('2');
    expect([status.files.done, status.sides.done, status.sides.open, status.workers]).toEqual([20, 10, 0, []]);
    expect(statusText(status)).toContain('20 recordings, 20 with a fingerprint, 10 different sides');
    const first = await store.report('2', null, 7);
    const rest = await store.report('2', first[6].id, 100);
    expect([first.length, rest.length]).toEqual([7, 13]);
    for (const row of [...first, ...rest]) {
      expect([row.state, row.figures.length]).toEqual(['done', tiltedSide.findings.length]);
    }
    expect(reportCsv(first).split('\r\n')[0]).toContain('archive,a/a0.wav,a record,bench 1,aaaa');
    expect(await store.addFiles(record, '', [file('a/a0.wav'), file('b/b1.wav', 99)])).toEqual({
      added: 0,
      there: 1,
      changed: 1,
    });
    expect(await store.left('2', ['archive'])).toBe(1);
    expect(await store.left('2', ['elsewhere'])).toBe(0);
  });

  it('set aside after three tries in vain, with the reason, and go on with the rest', async () => {
    const { store } = await begun(['a1.wav', 'b1.wav']);
    const failures: string[] = [];
    const failing = hands([], async (path) => {
      if (path.endsWith('b1.wav')) throw new Error('no header was found');
    });
    await work(store, failing, { onFailure: (_: string, why: string) => failures.push(why) });
    expect(failures).toEqual(Array(3).fill('no header was found'));
    const { sides, poisoned } = await store.status('2');
    expect([sides.done, sides.poisoned, poisoned]).toEqual([1, 1, [{ path: 'b1.wav', why: 'no header was found' }]]);
  });

  it('give back the work of a worker that fell silent; what it brings later is not kept', async () => {
    const { at, store } = await begun(['a1.wav']);
    const found = await store.claimFile(claimer('silent'), ['archive']);
    if (found === null) throw new Error('nothing was claimed');
    const side = await store.fingerprinted(found, 'a'.repeat(64), '2', claimer('silent', 1));
    if (side === null) throw new Error('nothing was claimed');
    const other = await open(at);
    let taken = null;
    while (taken === null) taken = await other.claimSide(claimer('next'), '2', ['archive']);
    expect(taken.tries).toBe(2);
    expect(await store.beat(side, 60_000)).toBe(false);
    expect(await store.complete(side, tiltedSide, 5)).toBe(false);
    await store.fail(side, 'too late');
    expect((await store.report('2', null, 5))[0]).toMatchObject({ state: 'claimed', figures: [] });
    expect(await other.beat(taken, 60_000)).toBe(true);
    expect(await other.complete(taken, straightSide, 5)).toBe(true);
    expect((await store.report('2', null, 5))[0].figures).toHaveLength(straightSide.findings.length);
    expect(await store.claimSide(claimer('again'), '2', ['archive'])).toBeNull();
  });

  it('are passed over by a worker that lacks their root, and given back by one that is stopped', async () => {
    const { store } = await begun(['a1.wav']);
    await store.addFiles(record, '', [file('c1.wav', 100, 'elsewhere')]);
    const measured: string[] = [];
    const signal = { stopped: false };
    const stopping = hands([], async () => {
      signal.stopped = true;
      throw new Error('ended');
    });
    await work(store, stopping, { signal });
    expect((await store.status('2')).sides).toMatchObject({ open: 1, claimed: 0, poisoned: 0 });
    await work(store, hands(measured));
    expect(measured).toEqual(['/archive/a1.wav']);
    expect((await store.status('2')).files).toMatchObject({ open: 1, done: 1 });
  });

  it('are measured again by a newer version of the methods, and what moved is told', async () => {
    const { store } = await begun(['a1.wav', 'b1.wav']);
    await work(store, hands([]), { method: '1' });
    expect(await store.again(1, '2')).toBe(0);
    expect(await store.again(2, '2')).toBe(2);
    expect(await store.again(2, '2')).toBe(0);
    const newer: Hands = {
      ...hands([]),
      measure: async (path) => (path.endsWith('a1.wav') ? straightSide : tiltedSide),
    };
    await work(store, newer);
    const { moved, next } = await store.moved('2', null, 100);
    expect(next).toBeNull();
    expect(new Set(moved.map(({ path }) => path))).toEqual(new Set(['a1.wav']));
    const [before] = tiltedSide.findings;
    const [now] = straightSide.findings;
    expect(moved.find(({ quantity }) => quantity === now.quantity)).toMatchObject({
      before: { method: '1', value: before.value },
      now: { method: '2', value: now.value },
    });
    expect(movedCsv(moved)).toContain(now.quantity);
  });
});

it('a root is a name and a folder; a path belongs to the deepest, and never leaves it', () => {
  expect(rootOf('archive=/mnt/a')).toEqual({ name: 'archive', folder: '/mnt/a' });
  expect([rootOf('archive'), rootOf('=x'), rootOf('a b=/x')]).toEqual([null, null, null]);
  const two = [
    { name: 'all', folder: '/mnt' },
    { name: 'a', folder: '/mnt/a' },
  ];
  expect(placeOf('/mnt/a/x/y.wav', two)).toEqual({ root: 'a', path: 'x/y.wav' });
  expect(placeOf('/mnt/ab/y.wav', two)).toEqual({ root: 'all', path: 'ab/y.wav' });
  expect(placeOf('/other/y.wav', two)).toBeNull();
});
