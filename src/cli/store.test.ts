import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { CannotError, UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';
import { command } from './store.ts';

let folder: ReturnType<typeof scratchFolder>;
let file: string;
let heard = heardStreams();
beforeEach(() => {
  folder = scratchFolder();
  file = join(folder.path, 'bench.sqlite');
});
afterEach(() => folder.remove());

const run = (...args: string[]) => {
  heard = heardStreams();
  return command.run([...args, '--store', file], heard.io);
};
const refusal = async (...args: string[]): Promise<[number, string]> => {
  const error = await run(...args).then(
    () => new Error('it was done'),
    (reason: Error) => reason,
  );
  if (!(error instanceof UsageError || error instanceof CannotError)) throw error;
  expect(error.message).not.toContain('\n');
  return [error instanceof CannotError ? 1 : 2, error.message];
};

async function filled(name: string): Promise<Store> {
  const store = await openStore(file);
  const { id } = given(await store.createJob({ deck: { name } }));
  given(await store.addCapture(id, { document: tiltedSide }));
  return store;
}
const titles = async (path: string): Promise<string[]> => {
  const store = await openStore(path);
  const { jobs } = await store.jobs();
  await store.close();
  return jobs.map((job) => job.title);
};

describe('store', () => {
  it('a copy is whole while the bench goes on, and has taken the place of what was lost', async () => {
    const store = await filled('one');
    const copy = join(folder.path, 'copy.sqlite');
    expect(await run('backup', copy)).toBe(0);
    expect(statSync(copy).mode & 0o777).toBe(0o600);
    given(await store.createJob({ deck: { name: 'after the copy' } }));
    expect(await refusal('restore', copy)).toEqual([2, expect.stringContaining('is open in another program')]);
    await store.close();
    expect(await refusal('backup', copy)).toEqual([2, expect.stringMatching(/is there and is kept|is there already/)]);
    expect(await refusal('backup', file)).toEqual([2, expect.stringContaining('which this command reads')]);
    expect(await run('restore', copy)).toBe(0);
    expect(await titles(file)).toEqual(['Job 1 · one']);
    expect(await titles(`${file}.before-restore`)).toEqual(['Job 2 · after the copy', 'Job 1 · one']);
    expect(await refusal('restore', copy)).toEqual([2, expect.stringContaining('from an earlier restore')]);
    expect(readdirSync(folder.path).sort()).toEqual(['bench.sqlite', 'bench.sqlite.before-restore', 'copy.sqlite']);
  });

  it('a damaged store gives way to its copy and is kept, with its log', async () => {
    await (await filled('one')).close();
    const copy = join(folder.path, 'copy.sqlite');
    await run('backup', copy);
    for (const damaged of [Buffer.alloc(8192, 0x5a), readFileSync(file).subarray(0, 5000)]) {
      writeFileSync(file, damaged);
      writeFileSync(`${file}-wal`, 'what was left of the log');
      expect(await run('restore', copy)).toBe(0);
      expect(await titles(file)).toEqual(['Job 1 · one']);
      expect(readFileSync(`${file}.before-restore`).equals(damaged)).toBe(true);
      for (const name of readdirSync(folder.path)) if (name.includes('before-restore')) rmSync(join(folder.path, name));
    }
  });

  it('a copy is taken with what is still in its own log, and files of other names beside are kept', async () => {
    const store = await filled('one');
    const copy = join(folder.path, 'copy.sqlite');
    writeFileSync(`${copy}.part`, 'mine');
    expect(await run('backup', copy)).toBe(0);
    expect(readFileSync(`${copy}.part`, 'utf8')).toBe('mine');
    // a copy made by hand while the bench went on: file and log
    const byHand = join(folder.path, 'hand.sqlite');
    given(await store.createJob({ deck: { name: 'still in the log' } }));
    for (const end of ['', '-wal']) writeFileSync(byHand + end, readFileSync(file + end));
    await store.close();
    writeFileSync(`${file}.restoring`, 'mine too');
    expect(await run('restore', byHand)).toBe(0);
    expect(await titles(file)).toEqual(['Job 2 · still in the log', 'Job 1 · one']);
    expect(readFileSync(`${file}.restoring`, 'utf8')).toBe('mine too');
  });

  it('check finds nothing in a sound store, leaves nothing behind, and names a job that cannot be read', async () => {
    await (await filled('one')).close();
    expect(await run('check')).toBe(0);
    expect(heard.out).toBe(`${file}: one job, nothing wrong.\n`);
    expect(readdirSync(folder.path)).toEqual(['bench.sqlite']);
    const database = new Database(file);
    database.prepare("update jobs set created_at = 'yesterday'").run();
    database.close();
    expect(await run('check')).toBe(1);
    expect(heard.out).toMatch(/^job \S+ cannot be read: createdAt: .*\n$/);
  });

  it('refuses in one line what is no store, and touches nothing', async () => {
    expect(await refusal('check')).toEqual([1, expect.stringContaining('there are no jobs yet')]);
    expect(await refusal()).toEqual([2, 'store needs one of: backup, restore, check, copy']);
    expect(await refusal('polish')).toEqual([2, expect.stringContaining("store 'polish'")]);
    expect(await refusal('backup')).toEqual([2, 'store backup: one file was expected']);
    expect(await refusal('restore', join(folder.path, 'none'))).toEqual([2, expect.stringContaining('no such file')]);
    const text = join(folder.path, 'text.txt');
    writeFileSync(text, 'dear diary');
    await (await filled('one')).close();
    const before = readFileSync(file);
    expect(await refusal('restore', text)).toEqual([2, expect.stringContaining('is not a store of jobs')]);
    expect(readFileSync(file).equals(before)).toBe(true);
    expect(readdirSync(folder.path).sort()).toEqual(['bench.sqlite', 'text.txt']);
  });
});
