import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { SideDocument } from '../../core/advise/document.ts';
import { tiltedSide } from '../../core/job/side.fixture.ts';
import { fingerprintOf } from '../chain/chains.fixture.ts';
import { type BatchStore, openBatches } from './batchStore.ts';

const START = Date.UTC(2026, 2, 4, 9);
const RECORD = 'r'.repeat(64);
let store: BatchStore;
let ids: number;

beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: START });
  ids = 0;
  store = await openBatches(':memory:', { now: () => new Date().toISOString(), newId: () => `f${++ids}` });
  await store.addRecord({ id: RECORD, name: 'a record', text: '{"a":1}' });
});
afterEach(async () => {
  vi.useRealTimers();
  await store.close();
});

const file = (path: string, root = 'a') => ({ root, path, bytes: path.length, modifiedMs: 1 });
const claimer = (token: string, leaseMs = 60_000) => ({ token, worker: `w ${token}`, leaseMs });
const add = (...files: ReturnType<typeof file>[]) => store.addFiles(RECORD, '', files);
const document = (more: Partial<SideDocument> = {}): SideDocument => ({ ...tiltedSide, ...more });

async function given<T>(work: Promise<T | null>): Promise<T> {
  const found = await work;
  if (found === null) throw new Error('nothing to claim');
  return found;
}

/** Claims the next file and gives it the fingerprint of a place. */
async function fingerprinted(place: number, token = `s${place}`, method = '3') {
  const work = await given(store.claimFile(claimer(`f${place}`), ['a', 'b']));
  return store.fingerprinted(work, fingerprintOf(place), method, claimer(token));
}

it('the text of a record file is given back; one that is not there is an error', async () => {
  expect(await store.recordText(RECORD)).toBe('{"a":1}');
  await expect(store.recordText('none')).rejects.toThrow();
  expect(await store.shop()).toEqual({});
});

it('a file is claimed within the roots that the worker reaches', async () => {
  await add(file('1.wav'), file('2.wav', 'b'));
  expect(await store.claimFile(claimer('t'), ['c'])).toBeNull();
  expect(await store.claimFile(claimer('t'), ['b', 'c'])).toEqual({
    table: 'batch_files',
    id: 'f2',
    token: 't',
    root: 'b',
    path: '2.wav',
    record: RECORD,
  });
});

it('with its fingerprint the side is claimed at once, with every place at which its content lies', async () => {
  await add(file('2.wav', 'b'), file('9.wav'), file('1.wav'));
  const first = await fingerprinted(7, 's1');
  expect(first).toEqual({
    table: 'batch_sides',
    id: `${fingerprintOf(7)}-3-${'r'.repeat(16)}`,
    token: 's1',
    fingerprint: fingerprintOf(7),
    record: RECORD,
    tries: 1,
    places: [{ root: 'b', path: '2.wav' }],
  });
  // another worker has the side
  expect(await fingerprinted(7, 's2')).toBeNull();
  await store.giveBack(await given(Promise.resolve(first)));
  const third = await fingerprinted(7, 's3');
  expect(third).toMatchObject({ token: 's3', tries: 1 });
  expect(third?.places).toEqual([
    { root: 'a', path: '1.wav' },
    { root: 'a', path: '9.wav' },
    { root: 'b', path: '2.wav' },
  ]);
  // the file was given to another worker meanwhile
  const late = { table: 'batch_files', id: 'f1', token: 'old', root: 'a', path: '', record: RECORD } as const;
  expect(await store.fingerprinted(late, fingerprintOf(8), '3', claimer('s4'))).toBeNull();
});

it('a side is claimed by its version and where it can be reached', async () => {
  await add(file('1.wav', 'b'));
  await store.giveBack(await given(fingerprinted(1)));
  expect(await store.claimSide(claimer('t'), '4', ['b'])).toBeNull();
  expect(await store.claimSide(claimer('t'), '3', ['a'])).toBeNull();
  expect(await store.claimSide(claimer('t'), '3', ['a', 'b'])).toEqual({
    table: 'batch_sides',
    id: `${fingerprintOf(1)}-3-${'r'.repeat(16)}`,
    token: 't',
    fingerprint: fingerprintOf(1),
    record: RECORD,
    tries: 1,
    places: [{ root: 'b', path: '1.wav' }],
  });
});

it('a result is kept with its claim, every figure in its order, and not where another worker has it', async () => {
  await add(file('1.wav'));
  const side = await given(fingerprinted(1));
  const [figure] = tiltedSide.findings;
  const findings = Array.from({ length: 205 }, (_, place) => ({
    ...figure,
    value: place === 3 ? 'not found' : place,
    ...(place === 4 ? { channel: 'left' as const } : {}),
  }));
  expect(await store.complete({ ...side, token: 'old' }, document({ findings }), 12)).toBe(false);
  expect((await store.status('3')).sides.done).toBe(0);
  vi.setSystemTime(START + 5000);
  expect(await store.complete(side, document({ findings }), 12)).toBe(true);
  expect(await store.complete(side, document({ findings }), 12)).toBe(false);
  const [row] = await store.report('3', null, 10);
  expect(row).toMatchObject({ state: 'done', measuredAt: new Date(START + 5000).toISOString() });
  const { quantity, uncertainty, unit, verdict } = figure;
  expect(row.figures).toEqual(
    findings.map(({ value }, place) => ({
      quantity,
      channel: place === 4 ? 'left' : null,
      value,
      uncertainty,
      unit,
      verdict,
    })),
  );
});

it('a word of the worker holds what it has; without one it is given to the next, looked for once a second', async () => {
  await add(file('1.wav'), file('2.wav'));
  const work = await given(store.claimFile(claimer('t1', 500), ['a']));
  expect(await store.beat(work, 900)).toBe(true);
  vi.setSystemTime(START + 901);
  // looked at less than a second ago
  expect((await store.claimFile(claimer('t2'), ['a']))?.path).toBe('2.wav');
  expect(await store.claimFile(claimer('t3'), ['a'])).toBeNull();
  vi.setSystemTime(START + 1000);
  expect((await store.claimFile(claimer('t4'), ['a']))?.path).toBe('1.wav');
  expect(await store.beat(work, 900)).toBe(false);
});

it('sides whose worker ended are given back too', async () => {
  await add(file('1.wav'));
  const work = await given(store.claimFile(claimer('t1'), ['a']));
  await store.fingerprinted(work, fingerprintOf(1), '3', claimer('s1', 100));
  expect(await store.claimSide(claimer('s2'), '3', ['a'])).toBeNull();
  vi.setSystemTime(START + 1100);
  expect(await store.claimSide(claimer('s2'), '3', ['a'])).toMatchObject({ token: 's2', tries: 2 });
});

it('what is left is counted: open or with a worker, of this version, within reach', async () => {
  await add(file('1.wav'), file('2.wav'), file('3.wav', 'b'));
  expect([await store.left('3', ['a']), await store.left('3', ['a', 'b']), await store.left('3', ['c'])]).toEqual([
    2, 3, 0,
  ]);
  const side = await given(fingerprinted(1));
  expect([await store.left('3', ['a']), await store.left('4', ['a']), await store.left('3', ['b'])]).toEqual([2, 1, 1]);
  const work = await given(store.claimFile(claimer('t'), ['a']));
  expect(await store.left('3', ['a'])).toBe(2);
  for (let tries = 1; tries < 3; tries++) {
    await store.fail({ ...work, token: tries === 1 ? 't' : `t${tries}` }, 'noise');
    vi.setSystemTime(START + 10_000 * tries);
    await given(store.claimFile(claimer(`t${tries + 1}`), ['a']));
  }
  await store.fail({ ...work, token: 't3' }, 'noise');
  expect(await store.left('3', ['a'])).toBe(1);
  await store.beat(side, 60_000);
  await store.complete(side, document(), 1);
  expect(await store.left('3', ['a'])).toBe(0);
});
