/** Programs that start at one moment on a store that is not there yet: one makes it, the others wait for it, and all work. */
import { execFile } from 'node:child_process';
import { rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { program } from '../../bench/batchKills.mjs';
import { type Cluster, startCluster } from '../store/cluster.fixture.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';

const folder = scratchFolder();
let cluster: Cluster;
let cli: string;
beforeAll(async () => {
  cluster = await startCluster();
  cli = await program();
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
  rmSync(dirname(cli), { recursive: true, force: true });
});

it.each([
  ['a file', async () => join(folder.path, 'new', 'bench.sqlite')],
  ['PostgreSQL', () => cluster.empty()],
])('%s', async (_, placeOf) => {
  const place = await placeOf();
  const run = promisify(execFile);
  const said = await Promise.all(
    [1, 2, 3, 4].map(() => run(process.execPath, [cli, 'batch', 'status', '--store', place], { timeout: 120_000 })),
  );
  for (const { stdout, stderr } of said) {
    expect(stderr).toBe('');
    expect(stdout).toContain('0 recordings');
  }
  const store = await openStore(place);
  expect(given(await store.createJob({ deck: { name: 'deck' } })).number).toBe(1);
  await store.close();
});
