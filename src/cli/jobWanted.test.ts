import { expect, it } from 'vitest';
import type { StoreToRead } from '../store/store.ts';
import { StoreError } from '../store/storeError.ts';
import { CannotError, UsageError } from './command.ts';
import { jsonText, one, present, type Wanted, withStore } from './jobWanted.ts';

it('what is not there is told with the command that shows what is', () => {
  expect(present({ outcome: 'found', value: 7 })).toBe(7);
  const gone = { outcome: 'not-found', why: 'There is no job 9.' } as const;
  expect(() => present(gone)).toThrow(CannotError);
  expect(() => present(gone)).toThrow('There is no job 9. job list shows those there are.');
  expect(() => present(gone, 'job show 1')).toThrow('There is no job 9. job show 1 shows those there are.');
});

it('one job, or one file, is one', () => {
  const wanted = (...ids: string[]) => ({ ids }) as unknown as Wanted;
  expect(one('show', wanted('4'))).toBe('4');
  for (const ids of [[], ['1', '2']]) {
    expect(() => one('show', wanted(...ids))).toThrow(UsageError);
    expect(() => one('show', wanted(...ids))).toThrow('job show: one job was expected');
    expect(() => one('import', wanted(...ids))).toThrow('job import: one file was expected');
  }
});

it('a store is closed however the work ends; its own sentence is what cannot be done, other faults stay faults', async () => {
  let closed = 0;
  const store = {
    async close() {
      closed += 1;
    },
  } as unknown as StoreToRead;
  expect(await withStore(store, async (same) => same === store)).toBe(true);
  const fails = (error: Error) =>
    withStore(store, async () => {
      throw error;
    });
  await expect(fails(new StoreError('It is damaged.'))).rejects.toThrow(CannotError);
  await expect(fails(new StoreError('It is damaged.'))).rejects.toThrow('It is damaged.');
  await expect(fails(new TypeError('no such thing'))).rejects.toThrow(TypeError);
  expect(closed).toBe(4);
  expect(jsonText({ a: 1 })).toBe('{\n  "a": 1\n}\n');
});
