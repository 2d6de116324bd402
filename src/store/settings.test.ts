import { afterEach, beforeEach, expect, it } from 'vitest';
import { noLetterhead } from '../core/job/letterhead.ts';
import { openDatabase } from './openDatabase.ts';
import {
  forgetLast,
  readLast,
  readLetterhead,
  readSetting,
  readShop,
  writeLast,
  writeLetterhead,
  writeSetting,
  writeShop,
} from './settings.ts';
import { type Db, reading, writing } from './transaction.ts';

let db: Db;
beforeEach(async () => {
  db = await openDatabase(':memory:', () => '2026-03-04T09:00:00.000Z');
});
afterEach(() => db.destroy());

const set = (name: string, value: string) => writing(db, (tx) => writeSetting(tx, name, value));
const last = (bench: string) => reading(db, (tx) => readLast(tx, bench));

it('a setting is written over, and one that was never written is none', async () => {
  const get = (name: string) => reading(db, (tx) => readSetting(tx, name));
  expect(await get('a')).toBeUndefined();
  await set('a', '1');
  await set('b', '2');
  await set('a', '3');
  expect([await get('a'), await get('b')]).toEqual(['3', '2']);
});

it('each bench has its own place; what is no station there is none', async () => {
  expect(await last('')).toBeNull();
  await writing(db, (tx) => writeLast(tx, '', { jobId: 'j', station: 'tilt' }));
  await writing(db, (tx) => writeLast(tx, 'two', { jobId: 'k', station: 'hand-over' }));
  expect([await last(''), await last('two'), await last('one')]).toEqual([
    { jobId: 'j', station: 'tilt' },
    { jobId: 'k', station: 'hand-over' },
    null,
  ]);
  expect(await reading(db, (tx) => readSetting(tx, 'last'))).toBe('j tilt');
  await set('last', 'j polish');
  expect(await last('')).toEqual({ jobId: 'j', station: null });
  await set('last', 'j');
  expect(await last('')).toEqual({ jobId: 'j', station: null });
});

it('a job that is gone is forgotten by every bench that was left at it, and by no other', async () => {
  for (const [name, value] of [
    ['last', 'j tilt'],
    ['last two', 'j run'],
    ['last three', 'jk run'],
    ['other', 'j run'],
  ])
    await set(name, value);
  await writing(db, (tx) => forgetLast(tx, 'j'));
  const rows = await db.selectFrom('settings').select('name').orderBy('name').execute();
  expect(rows.map(({ name }) => name)).toEqual(['last three', 'other', 'writer']);
});

it('the shop’s settings and the letterhead come back as they went in; unreadable ones are as if none were set', async () => {
  const shop = { limits: { class: 'archive' } } as const;
  const letterhead = { ...noLetterhead, name: 'The workshop' };
  const read = async () => [await reading(db, readShop), await reading(db, readLetterhead)];
  expect(await read()).toEqual([{}, noLetterhead]);
  await writing(db, (tx) => writeShop(tx, shop));
  await writing(db, (tx) => writeLetterhead(tx, letterhead));
  expect(await read()).toEqual([shop, letterhead]);
  for (const value of ['{', '7', '{"limits":7,"name":7}']) {
    await set('shop', value);
    await set('letterhead', value);
    expect(await read(), value).toEqual([{}, noLetterhead]);
  }
});
