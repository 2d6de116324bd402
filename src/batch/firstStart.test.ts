/** Programs that start at one moment on a store that is not there yet: one makes it, the others wait for it, and all work. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { given } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { type BatchBench, openBatchBench } from './bench.fixture.ts';

let bench: BatchBench;
beforeAll(async () => {
  bench = await openBatchBench();
});
afterAll(() => bench?.close());

it.each([
  ['a file', async () => join(bench.path, 'new', 'bench.sqlite')],
  ['PostgreSQL', () => bench.cluster.empty()],
])('%s', async (_, placeOf) => {
  const place = await placeOf();
  const run = promisify(execFile);
  const said = await Promise.all(
    [1, 2, 3, 4].map(() =>
      run(process.execPath, [bench.cli, 'batch', 'status', '--store', place], { timeout: 120_000 }),
    ),
  );
  for (const { stdout, stderr } of said) {
    expect(stderr).toBe('');
    expect(stdout).toContain('0 recordings');
  }
  const store = await openStore(place);
  expect(given(await store.createJob({ deck: { name: 'deck' } })).number).toBe(1);
  await store.close();
});
