import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { copyStore, faultsIn, putBack } from './copies.ts';
import { countingOrigin, given, scratchFolder } from './scratch.fixture.ts';
import { openStore, openStoreToRead, type Store } from './store.ts';
import { StoreError } from './storeError.ts';

let folder: ReturnType<typeof scratchFolder>;
let at: (name: string) => string;
let open: Store[];
beforeEach(() => {
  folder = scratchFolder();
  at = (name) => join(folder.path, name);
  open = [];
});
afterEach(async () => {
  for (const store of open) await store.close();
  folder.remove();
});

/** A store with a job on a deck of this name, still open. */
async function filled(name: string, deck: string): Promise<Store> {
  const store = await openStore(at(name), countingOrigin());
  open.push(store);
  given(await store.createJob({ deck: { name: deck } }));
  return store;
}
const closeAll = async () => {
  for (const store of open.splice(0)) await store.close();
};
async function decksIn(name: string): Promise<string[]> {
  const store = await openStoreToRead(at(name), countingOrigin());
  const { jobs } = await store.jobs();
  await store.close();
  return jobs.map(({ deck }) => deck.name);
}
function refusal(work: () => void): string {
  try {
    work();
  } catch (error) {
    expect(error).toBeInstanceOf(StoreError);
    return (error as Error).message.replaceAll(`${folder.path}/`, '');
  }
  return 'it was done';
}
/** SQLite leaves an empty log beside what was only read. */
const names = () =>
  readdirSync(folder.path)
    .filter((name) => !name.startsWith('copy.sqlite-'))
    .sort();

describe('a copy', () => {
  it('is whole, with what lies in the log yet, while the store is open; only its owner may read it', async () => {
    await filled('bench.sqlite', 'one');
    copyStore(at('bench.sqlite'), at('copy.sqlite'));
    expect(await decksIn('copy.sqlite')).toEqual(['one']);
    expect(statSync(at('copy.sqlite')).mode & 0o777).toBe(0o600);
    await closeAll();
    expect(names()).toEqual(['bench.sqlite', 'copy.sqlite']);
  });

  it('takes no name that is held, and leaves what stands there', async () => {
    await filled('bench.sqlite', 'one');
    writeFileSync(at('copy.sqlite'), 'a letter');
    expect(refusal(() => copyStore(at('bench.sqlite'), at('copy.sqlite')))).toBe(
      'copy.sqlite is there already and is kept; give another name.',
    );
    expect(readFileSync(at('copy.sqlite'), 'utf8')).toBe('a letter');
    expect(refusal(() => copyStore(at('bench.sqlite'), at('none/copy.sqlite')))).toContain(
      'none/copy.sqlite cannot be written',
    );
  });

  it('of what is no store is none, and nothing is left', async () => {
    writeFileSync(at('letter'), 'a letter to somebody, long enough');
    expect(refusal(() => copyStore(at('letter'), at('copy.sqlite')))).toContain('letter is not a store of jobs');
    expect(names()).toEqual(['letter']);
  });
});

describe('looking through a store', () => {
  it('finds nothing in a whole one', async () => {
    await filled('bench.sqlite', 'one');
    expect(faultsIn(at('bench.sqlite'))).toEqual([]);
  });

  it('tells of rows that belong to none, and changes nothing', async () => {
    await filled('bench.sqlite', 'one');
    await closeAll();
    const database = new Database(at('bench.sqlite'));
    database.pragma('foreign_keys = OFF');
    database.exec("update jobs set deck_id = 'none'");
    database.close();
    expect(faultsIn(at('bench.sqlite'))).toEqual(['a row of jobs belongs to a row of decks that is not there']);
  });

  it('tells of an index that does not hold what its table holds', async () => {
    await filled('bench.sqlite', 'one');
    await closeAll();
    const database = new Database(at('bench.sqlite'));
    database.unsafeMode(true);
    database.pragma('writable_schema = ON');
    database.exec("update sqlite_master set sql = replace(sql, 'title', 'customer') where name = 'never'");
    database.exec(
      "update sqlite_master set sql = replace(sql, '\"deck_id\")', '\"title\")') where name = 'jobs_by_deck'",
    );
    database.close();
    expect(faultsIn(at('bench.sqlite')).join(' ')).toMatch(/jobs_by_deck/);
  });

  it('says of what is no store that it is none', () => {
    writeFileSync(at('letter'), 'a letter to somebody, long enough');
    expect(refusal(() => faultsIn(at('letter')))).toContain('letter is not a store of jobs');
  });
});

describe('a copy put back', () => {
  it('stands in the place of the store, which is kept beside it', async () => {
    await filled('bench.sqlite', 'before');
    await filled('copy.sqlite', 'copied');
    await closeAll();
    putBack(at('copy.sqlite'), at('bench.sqlite'));
    expect(names()).toEqual(['bench.sqlite', 'bench.sqlite.before-restore', 'copy.sqlite']);
    expect(await decksIn('bench.sqlite')).toEqual(['copied']);
    expect(await decksIn('bench.sqlite.before-restore')).toEqual(['before']);
    expect(statSync(at('bench.sqlite')).mode & 0o777).toBe(0o600);
    // what an earlier one kept is not lost
    expect(refusal(() => putBack(at('copy.sqlite'), at('bench.sqlite')))).toBe(
      'bench.sqlite.before-restore is there from an earlier restore; move it away first.',
    );
  });

  it('needs no store in its place', async () => {
    await filled('copy.sqlite', 'copied');
    await closeAll();
    putBack(at('copy.sqlite'), at('bench.sqlite'));
    expect(names()).toEqual(['bench.sqlite', 'copy.sqlite']);
    expect(await decksIn('bench.sqlite')).toEqual(['copied']);
  });

  it('is refused while another program has the store open, and all is as it was', async () => {
    await filled('copy.sqlite', 'copied');
    await closeAll();
    await filled('bench.sqlite', 'before');
    const before = names();
    expect(refusal(() => putBack(at('copy.sqlite'), at('bench.sqlite')))).toBe(
      'bench.sqlite is open in another program; stop it first. Nothing was changed.',
    );
    expect(names()).toEqual(before);
  });

  it('in the place of a damaged one keeps that as it was', async () => {
    await filled('copy.sqlite', 'copied');
    await closeAll();
    const damaged = Buffer.alloc(8192, 0x5a);
    writeFileSync(at('bench.sqlite'), damaged);
    putBack(at('copy.sqlite'), at('bench.sqlite'));
    expect(names()).toEqual(['bench.sqlite', 'bench.sqlite.before-restore', 'copy.sqlite']);
    expect(readFileSync(at('bench.sqlite.before-restore')).equals(damaged)).toBe(true);
    expect(await decksIn('bench.sqlite')).toEqual(['copied']);
  });

  it('in the place of a damaged one keeps the log beside it, also one that makes no sense', async () => {
    await filled('copy.sqlite', 'copied');
    await closeAll();
    writeFileSync(at('bench.sqlite'), Buffer.alloc(8192, 0x5a));
    writeFileSync(at('bench.sqlite-wal'), 'what may be told from it one day');
    putBack(at('copy.sqlite'), at('bench.sqlite'));
    expect(readFileSync(at('bench.sqlite.before-restore-wal'), 'utf8')).toBe('what may be told from it one day');
    expect(names().filter((name) => /part|^bench.sqlite-/.test(name))).toEqual([]);
    expect(await decksIn('bench.sqlite')).toEqual(['copied']);
  });

  it('leaves nothing beside the copy, though that was a store in use when it was copied', async () => {
    await filled('copy.sqlite', 'copied');
    await closeAll();
    const bytes = readFileSync(at('copy.sqlite'));
    // as a store has it that is in use: changes go to a log
    bytes.fill(2, 18, 20);
    writeFileSync(at('copy.sqlite'), bytes);
    expect(faultsIn(at('copy.sqlite'))).toEqual([]);
    putBack(at('copy.sqlite'), at('bench.sqlite'));
    expect(names()).toEqual(['bench.sqlite', 'copy.sqlite']);
    expect(readFileSync(at('copy.sqlite')).equals(bytes)).toBe(true);
    expect(await decksIn('bench.sqlite')).toEqual(['copied']);
  });

  it('is refused where it is no store, or where a log of an earlier restore lies', async () => {
    await filled('bench.sqlite', 'before');
    await filled('copy.sqlite', 'copied');
    await closeAll();
    writeFileSync(at('letter'), 'a letter to somebody, long enough');
    expect(refusal(() => putBack(at('letter'), at('bench.sqlite')))).toContain('letter is not a store of jobs');
    writeFileSync(at('empty'), '');
    expect(refusal(() => putBack(at('empty'), at('bench.sqlite')))).toContain('empty is not a store of jobs');
    writeFileSync(at('bench.sqlite.before-restore-wal'), '');
    expect(refusal(() => putBack(at('copy.sqlite'), at('bench.sqlite')))).toBe(
      'bench.sqlite.before-restore-wal is there from an earlier restore; move it away first.',
    );
    expect(await decksIn('bench.sqlite')).toEqual(['before']);
  });

  it('that cannot be written leaves everything as it was', async () => {
    await filled('copy.sqlite', 'copied');
    await closeAll();
    mkdirSync(at('folder.sqlite'));
    expect(refusal(() => putBack(at('copy.sqlite'), at('folder.sqlite')))).toContain('folder.sqlite cannot be opened');
    expect(refusal(() => putBack(at('copy.sqlite'), at('none/bench.sqlite')))).toContain('bench.sqlite cannot be');
    expect(names()).toEqual(['copy.sqlite', 'folder.sqlite']);
    expect(existsSync(at('none'))).toBe(false);
  });
});
