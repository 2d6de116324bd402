import { afterEach, beforeEach, expect, it } from 'vitest';
import { leafChanges } from '../core/job/leafPaths.ts';
import { countingOrigin } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

let store: Store;
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
});
afterEach(() => store.close());

const arm = (name: string) => ({ schema: 1, kind: 'arm', name });
const make = (kind: 'arm' | 'deck' | 'record', id: string, data: object) =>
  store.changePart(kind, id, { changes: leafChanges({}, data) });
const record = {
  schema: 1,
  name: 'House record',
  rpm: 45,
  bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }],
};
const AT = '2026-03-04T09:30:00.000Z';

it('parts are listed by kind, then by name, then by id', async () => {
  await make('deck', 'a', { schema: 1, kind: 'deck', name: 'A' });
  for (const [id, name] of [
    ['z', 'B'],
    ['y', 'B'],
    ['x', 'C'],
    ['w', 'A'],
  ])
    await make('arm', id, arm(name));
  const told = (parts: readonly { kind: string; id: string }[]) => parts.map(({ kind, id }) => `${kind} ${id}`);
  expect(told(await store.parts())).toEqual(['arm w', 'arm y', 'arm z', 'arm x', 'deck a']);
  expect(told(await store.parts('deck'))).toEqual(['deck a']);
});

it('a part is given with its data, revision and time; one of another kind or id is not it', async () => {
  await make('arm', 'a', arm('A'));
  expect(await store.part('arm', 'a')).toEqual({
    outcome: 'found',
    value: { kind: 'arm', id: 'a', data: arm('A'), revision: 1, updatedAt: expect.any(String) },
  });
  const none = (kind: string, id: string) => ({
    outcome: 'not-found',
    why: `There is no ${kind} ${id} in the library.`,
  });
  expect(await store.part('deck', 'a')).toEqual(none('deck', 'a'));
  expect(await store.part('arm', 'b')).toEqual(none('arm', 'b'));
  expect(await store.deletePart('deck', 'a')).toEqual(none('deck', 'a'));
  expect(await store.deletePart('arm', 'b')).toEqual(none('arm', 'b'));
  expect(await store.deletePart('arm', 'a')).toEqual({ outcome: 'found', value: null });
});

it('the stamp is another one after every change, and the same where nothing was changed', async () => {
  const stamps = [await store.partsStamp()];
  expect(stamps[0]).toBe('0 0 ');
  await make('arm', 'a', arm('A'));
  stamps.push(await store.partsStamp());
  expect(stamps[1]).toMatch(/^1 1 2026-/);
  await store.changePart('arm', 'a', { changes: [{ path: ['name'], was: 'A', is: 'B' }] });
  stamps.push(await store.partsStamp());
  await make('deck', 'a', { schema: 1, kind: 'deck', name: 'A' });
  stamps.push(await store.partsStamp());
  expect(stamps[3]).toMatch(/^2 3 2026-/);
  expect(new Set(stamps).size).toBe(4);
  await store.changePart('arm', 'a', { changes: [{ path: ['name'], was: 'B', is: 'B' }] });
  expect(await store.partsStamp()).toBe(stamps[3]);
});

it('a part of another store is taken as it is, told where it is here already, and never written over', async () => {
  const part = { kind: 'arm', id: 'a', data: arm('A'), revision: 7, updatedAt: AT };
  expect(await store.takePart(part)).toBe('taken');
  expect(await store.parts()).toEqual([part]);
  expect(await store.takePart({ ...part, revision: 9 })).toBe('here-already');
  expect(await store.takePart({ ...part, data: arm('B') })).toBe('here-otherwise');
  expect(await store.parts()).toEqual([part]);
  // without a name it stands by its id
  expect(await store.takePart({ ...part, id: 'AA', data: { schema: 1 } })).toBe('taken');
  expect(await store.takePart({ ...part, id: 'AB', data: { name: 5 } })).toBe('taken');
  expect((await store.parts()).map(({ id }) => id)).toEqual(['a', 'AA', 'AB']);
});

it('a record file goes by the name in it, and what is none is refused in its reader’s words', async () => {
  expect(await make('record', 'r', record)).toMatchObject({ outcome: 'changed', value: { data: record, revision: 1 } });
  expect(await make('record', 's', { ...record, rpm: 3 })).toMatchObject({
    outcome: 'refused',
    why: expect.stringMatching(/rpm is 3.*[^.]\.$/),
  });
  // some leaves of one that is gone, and leaves of one that never was whole
  expect(await store.changePart('record', 'gone', { changes: [{ path: ['rpm'], was: undefined, is: 45 }] })).toEqual({
    outcome: 'conflict',
    current: null,
    conflicts: [],
  });
  expect(
    await store.changePart('arm', 'new', {
      changes: [
        { path: ['name'], is: 'N' },
        { path: ['effectiveMassG'], is: 4000 },
      ],
    }),
  ).toMatchObject({ outcome: 'refused' });
  expect((await store.parts()).map(({ id }) => id)).toEqual(['r']);
});
