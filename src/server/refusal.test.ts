import { expect, it } from 'vitest';
import { StoreAway, StoreError, Unkeepable } from '../store/storeError.ts';
import { Refusal, refusalOf } from './refusal.ts';

const coded = (code: unknown) => Object.assign(new Error('secret /home/b/x.ts'), { code });
const told = (error: unknown) => {
  const { status, body } = refusalOf(error);
  return [status, body.code, body.error];
};

it.each([
  ['bad-request', 400],
  ['not-json', 415],
  ['no-key', 401],
  ['forbidden', 403],
  ['not-found', 404],
  ['conflict', 409],
  ['too-large', 413],
  ['store', 503],
  ['away', 503],
  ['internal', 500],
] as const)('%s is answered with %i', (code, status) => {
  const refusal = new Refusal(code, 'A sentence.');
  expect([refusal.status, refusal.body, refusal.message]).toEqual([
    status,
    { error: 'A sentence.', code },
    'A sentence.',
  ]);
  expect(refusalOf(refusal)).toBe(refusal);
});

it('a conflict carries what is kept now and the leaves at odds', () => {
  const conflicts = [{ path: ['a'], yours: 1, theirs: 2 }];
  expect(new Refusal('conflict', 'Changed.', { current: { a: 2 }, conflicts }).body).toEqual({
    error: 'Changed.',
    code: 'conflict',
    current: { a: 2 },
    conflicts,
  });
});

it.each([
  ['SQLITE_FULL', 'The disk is full; nothing was saved.'],
  ['SQLITE_READONLY', 'The store can only be read; nothing was saved.'],
  ['SQLITE_READONLY_DBMOVED', 'The store can only be read; nothing was saved.'],
  ['SQLITE_BUSY', 'Another program is writing to the store; nothing was saved, try again.'],
  ['SQLITE_BUSY_SNAPSHOT', 'Another program is writing to the store; nothing was saved, try again.'],
  ['SQLITE_IOERR_FSYNC', 'The disk gave an error; nothing was saved.'],
  ['SQLITE_CORRUPT', 'The store is damaged; nothing was saved. Bring it back from a copy.'],
  ['SQLITE_NOTADB', 'The store is damaged; nothing was saved. Bring it back from a copy.'],
  ['SQLITE_FULLER', 'The store gave an error; nothing was saved.'],
  ['SQLITE_CONSTRAINT', 'The store gave an error; nothing was saved.'],
  ['53100', 'The disk of the database is full; nothing was saved.'],
  ['25006', 'The database can only be read; nothing was saved.'],
  ['55P03', 'Another program is writing to the store; nothing was saved, try again.'],
  ['57014', 'Another program is writing to the store; nothing was saved, try again.'],
  ['42501', 'The role of this bench may not do this in the database; nothing was saved.'],
  ['23505', 'The database gave an error; nothing was saved.'],
])('a store that says %s is told as such', (code, sentence) => {
  expect(told(coded(code))).toEqual([503, 'store', sentence]);
});

it.each([
  coded('x53100'),
  coded('531000'),
  coded('X_SQLITE_FULL'),
  coded(53100),
  coded('EACCE'.toLowerCase()),
  new Error('x'),
  null,
  undefined,
  'text',
])('what nobody expected is told without its insides: %o', (error) => {
  expect(told(error)).toEqual([500, 'internal', 'Something failed in the server that should not; nothing was saved.']);
});

it('what the store says in a sentence is passed on, by what it is', () => {
  expect(told(new Unkeepable())).toEqual([400, 'bad-request', new Unkeepable().message]);
  expect(told(new StoreAway(null))).toEqual([503, 'away', new StoreAway(null).message]);
  expect(told(new StoreError('One sentence.'))).toEqual([503, 'store', 'One sentence.']);
});
