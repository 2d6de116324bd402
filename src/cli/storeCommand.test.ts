/** What is copied and checked, told line by line; the stores answer what the test wants. store.test.ts has real ones. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Copied } from '../store/copyJobs.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { StoreError } from '../store/storeError.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './store.ts';

const told = vi.hoisted(() => ({
  copied: {} as object,
  asked: [] as unknown[],
  faults: [] as string[],
  list: { jobs: [] as { id: string; number: number }[], unreadable: [] as object[] },
  job: async (_: string): Promise<object> => ({}),
  valid: true,
}));
const open = (what: string) => async (place: string) => {
  told.asked.push([what, place]);
  return { place, job: (id: string) => told.job(id), close: async () => void told.asked.push(['close', place]) };
};
vi.mock('./storeFlag.ts', async (original) => ({
  ...(await original<typeof import('./storeFlag.ts')>()),
  openToRead: (place: string) => open('read')(place),
  openStoreFile: (place: string) => open('write')(place),
  openExistingStore: (place: string) => open('check')(place),
}));
vi.mock('../store/copyJobs.ts', () => ({
  async copyJobs(from: { place: string }, to: { place: string }, by: string) {
    told.asked.push(['copy', from.place, to.place, by.split(' ')[0]]);
    return told.copied;
  },
}));
vi.mock('../store/copies.ts', () => ({
  copyStore: (from: string, to: string) => told.asked.push(['copyStore', from, to]),
  putBack: (from: string, to: string) => told.asked.push(['putBack', from, to]),
  faultsIn(file: string) {
    told.asked.push(['faultsIn', file]);
    return told.faults;
  },
}));
vi.mock('../store/everyPage.ts', () => ({ everyJob: async () => told.list }));
vi.mock('../core/job/api.ts', async (original) => ({
  ...(await original<typeof import('../core/job/api.ts')>()),
  jobSchema: {
    safeParse: (job: { good?: boolean }) => (job.good === true ? { success: true } : { success: false, error: {} }),
  },
}));
vi.mock('../core/job/checkSentence.ts', () => ({ checkSentence: () => 'at title: nothing' }));

const folder = scratchFolder();
afterAll(() => folder.remove());
const at = (name: string) => join(folder.path, name);
let heard: Heard;
const none: Copied = {
  ...{ jobs: 0, there: 0, renumbered: [], otherwise: [], unreadable: [], parts: 0, partsOtherwise: 0, settings: [] },
  carried: { chains: 0, reference_recordings: 0, batch_files: 0, batch_sides: 0 },
} as unknown as Copied;
beforeEach(() => {
  heard = heardStreams();
  Object.assign(told, { copied: none, asked: [], faults: [], list: { jobs: [], unreadable: [] } });
  writeFileSync(at('a.sqlite'), 'SQLite format 3\0');
});
const run = (...args: string[]) => command.run(args, heard.io);

describe('store copy', () => {
  const copied = async (more: object, carried: object = {}) => {
    told.copied = { ...none, ...more, carried: { ...none.carried, ...carried } };
    heard = heardStreams();
    const status = await run('copy', 'a', 'b');
    return [status, ...heard.out.trimEnd().split('\n')];
  };

  it('reads the one, writes the other, and closes both', async () => {
    expect(await copied({})).toEqual([0, '0 jobs copied, 0 there already; 0 parts copied.']);
    expect(told.asked).toEqual([
      ['read', 'a'],
      ['write', 'b'],
      ['copy', 'a', 'b', 'platterside'],
      ['close', 'b'],
      ['close', 'a'],
    ]);
  });

  it('tells what went along', async () => {
    expect(await copied({ jobs: 1, there: 2, parts: 1, settings: ['letterhead'] })).toEqual([
      ...[0, '1 job copied, 2 there already; 1 part copied, letterhead too.'],
    ]);
    expect((await copied({ jobs: 3, parts: 2, settings: ['letterhead', 'limits'] }))[1]).toBe(
      '3 jobs copied, 0 there already; 2 parts copied, letterhead and limits too.',
    );
    const went = async (carried: object) => (await copied({}, carried))[2];
    expect(await went({ chains: 1 })).toBe(
      '1 chain, 0 reference recordings, 0 recordings of batches and 0 sides of them copied.',
    );
    expect(await went({ reference_recordings: 1 })).toMatch(/^0 chains, 1 reference recording, /);
    expect(await went({ batch_files: 1 })).toMatch(/, 1 recording of batches and 0 sides/);
    expect(await went({ batch_sides: 1 })).toMatch(/ and 1 side of them copied\.$/);
    expect(await went({ chains: 2, batch_sides: 2 })).toMatch(/^2 chains, .* and 2 sides of them copied\.$/);
  });

  it('tells what is otherwise there, and ends with 1 where a job was not copied', async () => {
    expect(await copied({ renumbered: [[4, 7]], partsOtherwise: 1 })).toEqual([
      ...[0, expect.any(String), 'Job 4 is job 7 there: another job has its number.'],
      '1 part there say something else; none was changed.',
    ]);
    expect(await copied({ otherwise: [4] })).toEqual([
      ...[1, expect.any(String), 'Job 4 is there and says something else; neither was changed.'],
    ]);
    expect(await copied({ unreadable: ['job x: half a page'] })).toEqual([
      ...[1, expect.any(String), 'Not copied: job x: half a page'],
    ]);
  });

  it('needs two stores that differ', async () => {
    await expect(run('copy', 'a')).rejects.toThrow('store copy: two stores, FROM and TO, were expected');
    await expect(run('copy')).rejects.toThrow(UsageError);
    await expect(run('copy', 'a', 'a')).rejects.toThrow('store copy: two different stores were expected');
    await expect(run('copy', 'a', 'b', 'c')).rejects.toThrow("store copy: two stores were expected; 'c' was found too");
    await expect(run('copy', 'a', 'b', '--store', 'c')).rejects.toThrow('takes both stores without --store');
  });
});

describe('store check', () => {
  const checked = async (place = at('a.sqlite')) => {
    heard = heardStreams();
    return [await run('check', '--store', place), heard.out];
  };

  it('finds nothing in sound jobs, and counts them', async () => {
    told.job = async () => ({ outcome: 'found', value: { good: true } });
    expect(await checked()).toEqual([0, `${at('a.sqlite')}: 0 jobs, nothing wrong.\n`]);
    told.list.jobs = [{ id: 'x', number: 1 }];
    expect(await checked()).toEqual([0, `${at('a.sqlite')}: one job, nothing wrong.\n`]);
    told.list.jobs = [...told.list.jobs, { id: 'y', number: 2 }];
    expect(await checked()).toEqual([0, `${at('a.sqlite')}: 2 jobs, nothing wrong.\n`]);
    expect(told.asked.slice(-3)).toEqual([
      ['faultsIn', at('a.sqlite')],
      ['check', at('a.sqlite')],
      ['close', at('a.sqlite')],
    ]);
  });

  it('tells the file’s own faults, and then asks for no job', async () => {
    told.faults = ['page 7 is broken', 'page 9 is broken'];
    expect(await checked()).toEqual([1, 'page 7 is broken\npage 9 is broken\n']);
    expect(told.asked).toEqual([['faultsIn', at('a.sqlite')]]);
  });

  it('tells every job that cannot be read, however that shows', async () => {
    told.list = {
      jobs: ['lost', 'thrown', 'half', 'good'].map((id, i) => ({ id, number: i + 1 })),
      unreadable: [{ id: 'u', why: 'torn' }],
    };
    told.job = async (id) => {
      if (id === 'thrown') throw new Error('it threw');
      return id === 'lost'
        ? { outcome: 'not-found', why: 'It is gone.' }
        : { outcome: 'found', value: { good: id === 'good' } };
    };
    expect(await checked()).toEqual([
      1,
      'job u cannot be read: torn\nIt is gone.\nit threw\njob 3 cannot be read: at title: nothing\n',
    ]);
  });

  it('leaves the file of a shared store to PostgreSQL', async () => {
    expect(await checked('postgresql://u@h/d')).toEqual([0, 'postgresql://u@h/d: 0 jobs, nothing wrong.\n']);
    expect(told.asked).toEqual([
      ['check', 'postgresql://u@h/d'],
      ['close', 'postgresql://u@h/d'],
    ]);
    await expect(run('check', 'x')).rejects.toThrow("store check takes no argument; 'x' was found");
  });
});

describe('store backup and restore', () => {
  it('take a file each', async () => {
    expect(await run('backup', at('b.sqlite'), '--store', at('a.sqlite'))).toBe(0);
    expect(heard.err).toBe(`Copy of ${at('a.sqlite')} written to ${at('b.sqlite')}.\n`);
    expect(told.asked).toEqual([['copyStore', at('a.sqlite'), at('b.sqlite')]]);
    told.asked = [];
    heard = heardStreams();
    writeFileSync(at('c.sqlite'), 'SQLite format 3\0');
    expect(await run('restore', at('a.sqlite'), '--store', at('c.sqlite'))).toBe(0);
    expect(heard.err).toBe(`${at('a.sqlite')} has taken the place of ${at('c.sqlite')} now.\n`);
    expect(told.asked).toEqual([['putBack', at('a.sqlite'), at('c.sqlite')]]);
  });

  it.each([
    [['backup'], UsageError, 'store backup: one file was expected'],
    [['backup', ''], UsageError, 'store backup: one file was expected'],
    [['restore'], UsageError, 'store restore: one file was expected'],
    [['backup', 'x', 'y'], UsageError, "store backup: one file was expected; 'y' was found too"],
    [['check', 'x', 'y'], UsageError, "store check: one file was expected; 'y' was found too"],
    [['backup', 'x', '--store', '/nowhere/a'], CannotError, 'there are no jobs yet: no store at /nowhere/a'],
    [['check', '--store', '/nowhere/a'], CannotError, 'there are no jobs yet: no store at /nowhere/a'],
    [['backup', 'x', '--store', 'postgresql://u@h/d'], UsageError, "is copied by PostgreSQL's own pg_dump"],
    [['restore', '/nowhere/x'], UsageError, '/nowhere/x: there is no such file; a copy of a store was expected'],
    [['restore', 'package.json', '--store', 'postgresql://u@h/d'], UsageError, 'the store is in PostgreSQL'],
    [['restore', 'package.json', '--store', 'package.json'], UsageError, 'which this command reads'],
    [[], UsageError, 'store needs one of: backup, restore, check, copy'],
    [['polish'], UsageError, "store 'polish': one of backup, restore, check, copy was expected"],
    [['toString'], UsageError, "store 'toString'"],
  ])('refuse %j', async (args, kind, sentence) => {
    await expect(run(...args)).rejects.toThrow(kind);
    await expect(run(...args)).rejects.toThrow(sentence);
    expect(told.asked).toEqual([]);
  });

  it('a store’s own sentence is bad usage, another fault is not', async () => {
    told.list = { jobs: [{ id: 'x', number: 1 }], unreadable: [] };
    told.job = () => {
      throw new StoreError('It is damaged.');
    };
    await expect(run('check', '--store', at('a.sqlite'))).rejects.toThrow(UsageError);
    told.job = () => {
      throw new TypeError('no such thing');
    };
    await expect(run('check', '--store', at('a.sqlite'))).rejects.toThrow(TypeError);
  });
});
