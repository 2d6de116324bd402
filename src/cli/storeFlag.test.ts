/** Where the jobs are kept, and what is said of a place that holds none. */
import { existsSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { storePlace } from '../store/storePlace.ts';
import { CannotError, UsageError } from './command.ts';
import { keyPlace, openExistingStore, openStoreFile, openToRead, storeFile } from './storeFlag.ts';

let folder: ReturnType<typeof scratchFolder>;
beforeEach(() => {
  folder = scratchFolder();
});
afterEach(() => {
  vi.unstubAllEnvs();
  folder.remove();
});
const at = (name: string) => join(folder.path, name);

describe('the place', () => {
  it('is what the flag says, else this account’s own', () => {
    expect(storeFile('x.sqlite')).toBe('x.sqlite');
    expect(storeFile(undefined)).toBe(storePlace(process.env, process.platform));
    expect(storeFile('postgresql://bench@db/shop')).toBe('postgresql://bench@db/shop');
    expect(() => storeFile('')).toThrow("--store '': the path of a file was expected");
    expect(() => storeFile('postgresql://bench:word@db/shop')).toThrow(UsageError);
    expect(() => storeFile('postgresql://bench:word@db/shop')).toThrow('holds a password');
  });

  it('of the key is beside a file; a shared store has one for each address, in a folder for this account alone', () => {
    expect(keyPlace(at('x.sqlite'))).toBe(at('x.sqlite'));
    expect(existsSync(at('x.sqlite'))).toBe(false);
    if (process.platform !== 'linux') return;
    vi.stubEnv('XDG_DATA_HOME', at('data'));
    const [one, other] = ['postgresql://u@h/one', 'postgresql://u@h/other'].map(keyPlace);
    expect(one).toMatch(/data\/platterside\/shared-[0-9a-f]{12}$/);
    expect(other).not.toBe(one);
    expect(keyPlace('postgresql://u@h/one')).toBe(one);
    expect(statSync(at('data/platterside')).mode & 0o777).toBe(0o700);
  });
});

describe('a store', () => {
  it('is made by what writes into it, and by nothing else', async () => {
    for (const open of [openExistingStore, openToRead]) {
      await expect(open(at('x.sqlite'))).rejects.toThrow(CannotError);
      await expect(open(at('x.sqlite'))).rejects.toThrow(
        `there are no jobs yet: no store at ${at('x.sqlite')}; serve or job import makes one`,
      );
    }
    expect(existsSync(at('x.sqlite'))).toBe(false);
    await (await openStoreFile(at('x.sqlite'))).close();
    for (const open of [openExistingStore, openToRead]) await (await open(at('x.sqlite'))).close();
  });

  it('that is none is told in the store’s own sentence', async () => {
    writeFileSync(at('text'), 'dear diary');
    for (const open of [openExistingStore, openToRead, openStoreFile]) {
      await expect(open(at('text'))).rejects.toThrow(UsageError);
      await expect(open(at('text'))).rejects.toThrow('is not a store of jobs');
    }
  });
});
