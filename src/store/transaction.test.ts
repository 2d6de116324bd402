/** Transactions over databases that are busy, cross or go away, told here by what they throw. */
import { PostgresAdapter, SqliteAdapter } from 'kysely';
import { expect, it } from 'vitest';
import { StoreAway } from './storeError.ts';
import { claiming, type Db, reading, writing } from './transaction.ts';

const coded = (code: string): Error => Object.assign(new Error(code), { code });

/** A database whose transactions go as told, one after the other: an error is thrown before the work, or after it. */
function database(postgres: boolean, ...course: ('works' | { readonly before?: Error; readonly after?: Error })[]) {
  const statements: string[] = [];
  const how: string[] = [];
  let turn = 0;
  const builder = {
    set: () => builder,
    where: () => builder,
    execute: async () => void statements.push('turn'),
  };
  const tx = {
    updateTable: () => builder,
    getExecutor: () => ({
      adapter: postgres ? new PostgresAdapter() : new SqliteAdapter(),
      transformQuery: (node: unknown) => node,
      compileQuery: (node: unknown) => node,
      executeQuery: async () => {
        statements.push('tell');
        return { rows: [] };
      },
    }),
  };
  const transaction = {
    setIsolationLevel(level: string) {
      how.push(level);
      return transaction;
    },
    setAccessMode(mode: string) {
      how.push(mode);
      return transaction;
    },
    async execute(work: (given: never) => Promise<unknown>) {
      const goes = course[turn++] ?? 'works';
      if (goes !== 'works' && goes.before !== undefined) throw goes.before;
      const answer = await work(tx as never);
      if (goes !== 'works' && goes.after !== undefined) throw goes.after;
      return answer;
    },
  };
  const db = { getExecutor: tx.getExecutor, transaction: () => transaction } as unknown as Db;
  return { db, statements, how, turns: () => turn };
}
const answer = async () => 'done';

it('a change takes its turn first; in PostgreSQL those who listen are told of it last', async () => {
  const file = database(false);
  expect(await writing(file.db, answer)).toBe('done');
  expect(file.statements).toEqual(['turn']);
  const shared = database(true);
  await writing(shared.db, async () => shared.statements.push('work'));
  expect(shared.statements).toEqual(['turn', 'work', 'tell']);
});

it('claims go beside each other in PostgreSQL, and take their turn in a file', async () => {
  const [file, shared] = [database(false), database(true)];
  await claiming(file.db, answer);
  await claiming(shared.db, answer);
  expect([file.statements, shared.statements]).toEqual([['turn'], []]);
});

it.each([
  ['SQLITE_BUSY', false],
  ['SQLITE_LOCKED', false],
  ['40001', true],
  ['40P01', true],
])('%s: it is tried again, until it is done', async (code, postgres) => {
  const { db, turns } = database(postgres, { before: coded(code) }, { after: coded(code) }, 'works');
  let worked = 0;
  expect(
    await writing(db, async () => {
      worked += 1;
      return 'done';
    }),
  ).toBe('done');
  expect([turns(), worked]).toEqual([3, 2]);
});

it('any other error is passed on at once, as it is', async () => {
  const error = coded('SQLITE_FULL');
  const { db, turns } = database(false, { before: error });
  await expect(writing(db, answer)).rejects.toBe(error);
  expect(turns()).toBe(1);
});

it('a database that goes away before the work is done saved nothing; after it, that is not known', async () => {
  const away = coded('ECONNRESET');
  const savedBy = async (course: { before?: Error; after?: Error }) => {
    const { db, turns } = database(true, course);
    const error = await writing(db, answer).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(StoreAway);
    expect(turns()).toBe(1);
    return (error as StoreAway).saved;
  };
  expect(await savedBy({ before: away })).toBe(false);
  expect(await savedBy({ after: away })).toBeNull();
  const failing = database(true);
  const error = await writing(failing.db, async () => Promise.reject(away)).catch((reason: unknown) => reason);
  expect((error as StoreAway).saved).toBe(false);
});

it('one that went away after a try that was crossed is told by the last try', async () => {
  const { db } = database(true, { after: coded('40001') }, { before: coded('ECONNRESET') });
  const error = await writing(db, answer).catch((reason: unknown) => reason);
  expect((error as StoreAway).saved).toBe(false);
});

it('what is read together is read of one state, and nothing can be written by it', async () => {
  const [file, shared] = [database(false), database(true)];
  expect([await reading(file.db, answer), await reading(shared.db, answer)]).toEqual(['done', 'done']);
  expect([file.how, shared.how]).toEqual([[], ['repeatable read', 'read only']]);
  expect([file.statements, shared.statements]).toEqual([[], []]);
  const away = database(true, { after: coded('57P01') });
  expect(((await reading(away.db, answer).catch((reason: unknown) => reason)) as StoreAway).saved).toBe(false);
  const other = coded('23505');
  await expect(reading(database(true, { before: other }).db, answer)).rejects.toBe(other);
});
