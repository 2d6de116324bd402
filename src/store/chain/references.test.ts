import { afterEach, beforeEach, expect, it } from 'vitest';
import type { NewReference } from '../../core/job/chains/chain.ts';
import { openDatabase } from '../openDatabase.ts';
import { type Db, reading, writing } from '../transaction.ts';
import { addReference, changeReference, listReferences, removeReference, withReferences } from './references.ts';

const AT = '2026-03-04T09:00:00.000Z';
const origin = { now: () => AT, newId: () => 'x' };
let db: Db;
beforeEach(async () => {
  db = await openDatabase(':memory:', origin.now);
});
afterEach(() => db.destroy());

const key = '0123456789abcdef';
const reference = (letter: string, expires: string, more: Partial<NewReference> = {}): NewReference => ({
  fingerprint: letter.repeat(64),
  name: `transfer ${letter}`,
  record: { key, name: 'the record' },
  certificate: `C ${letter}`,
  expires,
  ...more,
});
const add = (wanted: NewReference) => writing(db, (tx) => addReference(tx, wanted, origin));
const list = (today: string) => reading(db, (tx) => listReferences(tx, today));
const change = (letter: string, ...changes: { path: string[]; was?: unknown; is?: unknown }[]) =>
  writing(db, (tx) => changeReference(tx, letter.repeat(64), { changes } as never, origin));

it('they are listed by their last day, and told for thirty days before it', async () => {
  await add(reference('b', '2026-04-01'));
  await add(reference('a', '2026-04-01'));
  await add(reference('c', '2026-03-02'));
  const states = async (today: string) => (await list(today)).references.map(({ state }) => state);
  expect((await list('2026-03-02')).references).toEqual([
    { ...reference('c', '2026-03-02'), addedAt: AT, state: 'soon' },
    { ...reference('a', '2026-04-01'), addedAt: AT, state: 'soon' },
    { ...reference('b', '2026-04-01'), addedAt: AT, state: 'soon' },
  ]);
  expect(await states('2026-03-01')).toEqual(['soon', 'holds', 'holds']);
  expect(await states('2026-01-30')).toEqual(['holds', 'holds', 'holds']);
  expect(await states('2026-03-03')).toEqual(['expired', 'soon', 'soon']);
  expect(await states('2026-04-01')).toEqual(['expired', 'soon', 'soon']);
  expect(await states('2026-04-02')).toEqual(['expired', 'expired', 'expired']);
});

it('one that is there already is told anew, and stays one', async () => {
  await add(reference('a', '2026-04-01'));
  const renewed = reference('a', '2027-04-01', {
    name: 'n',
    certificate: '',
    record: { key: 'f'.repeat(16), name: 'o' },
  });
  await add(renewed);
  expect((await list('2026-03-01')).references).toEqual([{ ...renewed, addedAt: AT, state: 'holds' }]);
});

it('a whole one makes it; of one that was removed meanwhile some leaves make none', async () => {
  const { fingerprint: _, ...typed } = reference('a', '2026-04-01');
  const leaves = [
    { path: ['name'], is: typed.name },
    { path: ['record'], is: typed.record },
    { path: ['certificate'], is: typed.certificate },
    { path: ['expires'], is: typed.expires },
  ];
  expect(await change('a', ...leaves)).toEqual({ outcome: 'changed', value: reference('a', '2026-04-01') });
  expect(await change('b', { path: ['name'], is: 'half' })).toMatchObject({ outcome: 'refused' });
  // a value that stood there, of one that is gone
  expect(await change('b', ...leaves.slice(1), { path: ['name'], was: 'before', is: 'after' })).toMatchObject({
    outcome: 'conflict',
    current: null,
  });
  expect(await change('b', { path: ['certificate'], was: 'x' })).toEqual({
    outcome: 'conflict',
    current: null,
    conflicts: [],
  });
  expect((await list('2026-03-01')).references).toHaveLength(1);
});

it('leaves join; the same leaf changed elsewhere is told with both; what is no day is refused in words', async () => {
  await add(reference('a', '2026-04-01'));
  expect(await change('a', { path: ['certificate'], was: 'C a', is: 'C 2' })).toEqual({
    outcome: 'changed',
    value: reference('a', '2026-04-01', { certificate: 'C 2' }),
  });
  expect(await change('a', { path: ['certificate'], was: 'C a', is: 'C 3' })).toEqual({
    outcome: 'conflict',
    current: reference('a', '2026-04-01', { certificate: 'C 2' }),
    conflicts: [{ path: ['certificate'], yours: 'C 3', theirs: 'C 2' }],
  });
  expect(await change('a', { path: ['expires'], was: '2026-04-01', is: 'May' })).toEqual({
    outcome: 'refused',
    why: 'expires: a day is written as 2027-03-01',
  });
});

it('one is removed once', async () => {
  await add(reference('a', '2026-04-01'));
  await add(reference('b', '2026-04-01'));
  const remove = () => writing(db, (tx) => removeReference(tx, 'a'.repeat(64)));
  expect(await remove()).toEqual({ outcome: 'found', value: null });
  expect(await remove()).toEqual({
    outcome: 'not-found',
    why: `There is no reference recording of the fingerprint ${'a'.repeat(64)}.`,
  });
  expect((await list('2026-03-01')).references).toHaveLength(1);
});

it('readings know themselves by their fingerprint, and their record file’s last certificate by its key', async () => {
  await add(reference('a', '2026-04-01'));
  await add(reference('b', '2027-04-01'));
  const reading1 = (fingerprint: string | null, record: { key: string; name: string } | null) => ({
    id: 'i',
    at: AT,
    knownAt: AT,
    source: { root: 'a', path: 'p' },
    fingerprint,
    method: '3',
    record,
    figures: [],
  });
  const told = (readings: ReturnType<typeof reading1>[]) => reading(db, (tx) => withReferences(tx, readings));
  const [known, other, none] = [
    reading1('a'.repeat(64), { key, name: 'r' }),
    reading1('c'.repeat(64), { key: 'f'.repeat(16), name: 's' }),
    reading1(null, null),
  ];
  expect(await told([known, other, none])).toEqual([
    { ...known, reference: 'transfer a', certificateUntil: '2027-04-01' },
    { ...other, reference: null, certificateUntil: null },
    { ...none, reference: null, certificateUntil: null },
  ]);
  expect(await told([none])).toEqual([{ ...none, reference: null, certificateUntil: null }]);
  expect(await told([])).toEqual([]);
});
