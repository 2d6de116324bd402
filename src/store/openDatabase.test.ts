import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { newestLayout } from './migrations.ts';
import { countingOrigin, given, scratchFolder } from './scratch.fixture.ts';
import { openStore, openStoreToRead } from './store.ts';
import { StoreError } from './storeError.ts';
import { storePlace } from './storePlace.ts';

let folder: ReturnType<typeof scratchFolder>;
let file: string;
beforeEach(() => {
  folder = scratchFolder();
  file = join(folder.path, 'bench.sqlite');
});
afterEach(() => folder.remove());

const open = () => openStore(file, countingOrigin());

async function refusal(): Promise<string> {
  const error = await open().then(
    async (store) => {
      await store.close();
      return new Error('the store was opened');
    },
    (reason: unknown) => reason as Error,
  );
  expect(error).toBeInstanceOf(StoreError);
  expect(error.message).not.toContain('\n');
  return error.message;
}

const fingerprint = () => createHash('sha256').update(readFileSync(file)).digest('hex');

/** A store with a few hundred pages. */
async function filled(): Promise<void> {
  const store = await open();
  const { id } = given(await store.createJob({ deck: { name: 'd' } }));
  for (let take = 0; take < 40; take++) {
    const x = Array.from({ length: 600 }, (_, place) => place + take);
    const curves = [{ quantity: 'frequency-response', x, y: x, xUnit: 'Hz', yUnit: 'dB' }];
    await store.addCapture(id, { document: { ...tiltedSide, curves } });
  }
  await store.close();
}

describe('opening a store', () => {
  it('makes the file, and the folders above it, where there is none', async () => {
    file = join(folder.path, 'a', 'b', 'bench.sqlite');
    const store = await open();
    const { id } = given(await store.createJob({ deck: { name: 'd' } }));
    await store.close();
    expect(readdirSync(join(folder.path, 'a', 'b'))).toEqual(['bench.sqlite']);
    const again = await open();
    expect(given(await again.job(id)).number).toBe(1);
    await again.close();
  });

  it('takes an empty file for a new store', async () => {
    writeFileSync(file, '');
    const store = await open();
    expect(await store.jobs()).toEqual({ jobs: [], unreadable: [] });
    await store.close();
  });

  it('keeps a write-ahead log, so that reading never waits for writing', async () => {
    const store = await open();
    const beside = new Database(file, { readonly: true });
    expect(beside.pragma('journal_mode', { simple: true })).toBe('wal');
    beside.close();
    await store.close();
  });

  it('makes files that only their owner may read', async () => {
    const store = await open();
    await store.createJob({ deck: { name: 'd' } });
    for (const name of readdirSync(folder.path))
      expect(statSync(join(folder.path, name)).mode & 0o777, name).toBe(0o600);
    expect(readdirSync(folder.path)).toContain('bench.sqlite-wal');
    await store.close();
  });

  it('goes on answering while another program writes, and writes when that is done', async () => {
    const store = await open();
    const { id } = given(await store.createJob({ deck: { name: 'd' } }));
    const other = new Database(file);
    other.exec('begin immediate');
    let done = false;
    const change = { changes: [{ path: ['customer'], was: '', is: 'C-1' }] };
    const changing = store.changeJob(id, change).then((answer) => {
      done = true;
      return answer;
    });
    await new Promise((resolve) => setTimeout(resolve, 300));
    const asked = performance.now();
    expect((await store.jobs()).jobs).toHaveLength(1);
    expect(performance.now() - asked).toBeLessThan(2000);
    expect(done).toBe(false);
    other.exec('rollback');
    other.close();
    expect(await changing).toMatchObject({ outcome: 'changed', value: { customer: 'C-1' } });
    await store.close();
  });

  it('records the steps of its layout', async () => {
    await (await open()).close();
    await (await open()).close();
    const database = new Database(file, { readonly: true });
    expect(database.prepare('select number, applied_at from layout_steps').all()).toEqual(
      Array.from({ length: newestLayout }, (_, i) => ({
        number: i + 1,
        applied_at: `2026-03-04T09:${String(i).padStart(2, '0')}:00.000Z`,
      })),
    );
    database.close();
  });
});

describe('opening a store to read from', () => {
  const look = async () => {
    const store = await openStoreToRead(file, countingOrigin());
    const { jobs } = await store.jobs();
    await store.close();
    return jobs.map(({ deck }) => deck.name);
  };
  const asItLies = () => readdirSync(folder.path).map((name) => [name, statSync(join(folder.path, name)).mtimeMs]);

  it('writes nothing, not even beside it, where it may not be written', async () => {
    await filled();
    chmodSync(file, 0o444);
    chmodSync(folder.path, 0o555);
    const before = [asItLies(), fingerprint()];
    expect(await look()).toEqual(['d']);
    expect([asItLies(), fingerprint()]).toEqual(before);
    chmodSync(folder.path, 0o755);
  });

  it('reads what another process wrote and still has open', async () => {
    const other = await open();
    await other.createJob({ deck: { name: 'just now' } });
    expect(await look()).toEqual(['just now']);
    await other.createJob({ deck: { name: 'after' } });
    expect((await look()).toSorted()).toEqual(['after', 'just now']);
    await other.close();
    expect(readdirSync(folder.path)).toEqual(['bench.sqlite']);
  });

  it('reads an empty file as a store without jobs', async () => {
    writeFileSync(file, '');
    expect(await look()).toEqual([]);
    expect(statSync(file).size).toBe(0);
  });

  it('refuses what is none, in one sentence', async () => {
    writeFileSync(file, 'dear diary');
    await expect(look()).rejects.toThrow('is not a store of jobs');
    await filledWithAnotherProgram();
    await expect(look()).rejects.toThrow('database of another program');
    expect(readdirSync(folder.path)).toEqual(['bench.sqlite']);
  });
});

async function filledWithAnotherProgram(): Promise<void> {
  rmSync(file);
  const other = new Database(file);
  other.exec('create table diary (day text)');
  other.close();
}

describe('a file that is no store', () => {
  it('is refused with one sentence and left as it was: some other file', async () => {
    writeFileSync(file, 'dear diary, today the belt slipped'.repeat(100));
    const before = fingerprint();
    expect(await refusal()).toContain('is not a store of jobs');
    expect(fingerprint()).toBe(before);
    expect(readdirSync(folder.path)).toEqual(['bench.sqlite']);
  });

  it("another program's database", async () => {
    const other = new Database(file);
    other.exec('create table diary (day text)');
    other.close();
    const before = fingerprint();
    expect(await refusal()).toContain('database of another program');
    expect(fingerprint()).toBe(before);
  });

  it('a folder', async () => {
    mkdirSync(file);
    expect(await refusal()).toContain('is a folder; a store is one file');
  });

  it('a place under a file', async () => {
    writeFileSync(join(folder.path, 'x'), '');
    file = join(folder.path, 'x', 'bench.sqlite');
    expect(await refusal()).toContain('cannot be made');
  });
});

describe('a damaged store', () => {
  it.each([
    ['cut short', () => truncateSync(file, Math.floor(statSync(file).size / 2))],
    [
      'overwritten in the middle',
      () => {
        const bytes = readFileSync(file);
        bytes.fill(0x5a, 4096, 3 * 4096);
        writeFileSync(file, bytes);
      },
    ],
    ['cut in its first page', () => truncateSync(file, 700)],
  ])('is refused with one sentence and left as it was: %s', async (_, damage) => {
    await filled();
    damage();
    const before = fingerprint();
    expect(await refusal()).toContain('damaged');
    expect(fingerprint()).toBe(before);
    expect(existsSync(file)).toBe(true);
  });

  it('is told apart from one that a newer version wrote', async () => {
    await filled();
    const database = new Database(file);
    database
      .prepare('insert into layout_steps (number, name, applied_at) values (?, ?, ?)')
      .run(newestLayout + 1, 'later', '2030-01-01T00:00:00.000Z');
    database.close();
    const before = fingerprint();
    const sentence = await refusal();
    expect(sentence).toContain(`its layout is ${newestLayout + 1}, this one knows up to ${newestLayout}`);
    expect(fingerprint()).toBe(before);
  });
});

describe('where the store lies', () => {
  it.each([
    [{}, 'linux', '/home/b/.local/share/platterside/bench.sqlite'],
    [{ XDG_DATA_HOME: '/data' }, 'linux', '/data/platterside/bench.sqlite'],
    [{ XDG_DATA_HOME: 'relative' }, 'linux', '/home/b/.local/share/platterside/bench.sqlite'],
    [{ XDG_DATA_HOME: '/data' }, 'darwin', '/home/b/Library/Application Support/Platterside/bench.sqlite'],
  ])('%j on %s', (environment, platform, expected) => {
    expect(storePlace(environment, platform, '/home/b')).toBe(expected);
  });
});
