import { expect, it } from 'vitest';
import { StoreAway, StoreError, Unkeepable } from './storeError.ts';
import { isBusy, isDamaged, unusable } from './unusable.ts';

const thrown = (code: string): Error => Object.assign(new Error(`${code}: what the library says`), { code });

const READ_ONLY =
  'bench.sqlite may only be read, and jobs are kept by writing: make the file and its folder writable, or name another with --store.';
const RIGHTS =
  'bench.sqlite cannot be opened: the rights of the file or of its folder forbid it. Name another with --store.';
const HELD = 'bench.sqlite is held by another program; close it, or name another with --store.';
const FULL = 'bench.sqlite cannot be written: the disk is full.';
const DAMAGED =
  'bench.sqlite is damaged. The file was not touched; name another with --store, or bring it back from a copy.';
const DISK = 'bench.sqlite cannot be read: the disk gave an error.';

it.each([
  ['SQLITE_READONLY', READ_ONLY],
  ['SQLITE_READONLY_DIRECTORY', READ_ONLY],
  ['EROFS', READ_ONLY],
  ['SQLITE_CANTOPEN', RIGHTS],
  ['SQLITE_CANTOPEN_ISDIR', RIGHTS],
  ['EACCES', RIGHTS],
  ['EPERM', RIGHTS],
  ['SQLITE_BUSY', HELD],
  ['SQLITE_BUSY_SNAPSHOT', HELD],
  ['SQLITE_LOCKED', HELD],
  ['SQLITE_FULL', FULL],
  ['ENOSPC', FULL],
  ['EDQUOT', FULL],
  ['SQLITE_CORRUPT', DAMAGED],
  ['SQLITE_CORRUPT_VTAB', DAMAGED],
  ['SQLITE_NOTADB', DAMAGED],
  ['SQLITE_IOERR_SHORT_READ', DAMAGED],
  ['SQLITE_IOERR_READ', DISK],
  ['EIO', DISK],
])('%s is told in words, and only damage is called damage', (code, sentence) => {
  const error = unusable('bench.sqlite', thrown(code), 'not used');
  expect(error).toBeInstanceOf(StoreError);
  expect(error.message).toBe(sentence);
  expect(isDamaged(thrown(code))).toBe(sentence === DAMAGED);
  expect(isBusy(thrown(code))).toBe(sentence === HELD);
});

it.each([null, undefined, 'text', new Error('SQLITE_BUSY'), thrown('X_SQLITE_BUSY'), thrown('X_SQLITE_CORRUPT')])(
  'neither busy nor damaged: %s',
  (error) => {
    expect([isBusy(error), isDamaged(error)]).toEqual([false, false]);
  },
);

it('an error of no known kind keeps its own words', () => {
  const said = (error: unknown) => unusable('bench.sqlite', error, 'bench.sqlite cannot be read').message;
  expect(said(new Error('odd'))).toBe('bench.sqlite cannot be read (odd).');
  expect(said('odd text')).toBe('bench.sqlite cannot be read (odd text).');
  for (const code of ['X_SQLITE_READONLY', 'X_EACCES', 'X_SQLITE_BUSY', 'XENOSPC', 'X_SQLITE_CORRUPT', 'XEIO'])
    expect(said(thrown(code))).toBe(`bench.sqlite cannot be read (${code}: what the library says).`);
});

it('a database that went away says whether it is known that nothing was kept', () => {
  const [known, unknown] = [new StoreAway(false), new StoreAway(null)];
  expect([known.saved, known.message]).toEqual([
    false,
    'The database of the store does not answer; nothing was saved by this. Try again.',
  ]);
  expect([unknown.saved, unknown.message]).toEqual([
    null,
    'The database went away while it was saving: it is not known whether this was saved. Sent again, it is kept once.',
  ]);
  for (const error of [known, unknown, new Unkeepable()]) expect(error).toBeInstanceOf(StoreError);
});
