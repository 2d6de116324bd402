import { rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { measureAll, program, writeSides } from '../../bench/batchKills.mjs';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { openBatches } from '../store/batch/batchStore.ts';
import { type Cluster, startCluster } from '../store/cluster.fixture.ts';
import { countingOrigin, scratchFolder } from '../store/scratch.fixture.ts';

const folder = scratchFolder();
let cluster: Cluster;
let cli: string;
let contents: Set<string>;
beforeAll(async () => {
  cluster = await startCluster();
  cli = await program();
  contents = writeSides(folder.path, 8);
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
  rmSync(dirname(cli), { recursive: true, force: true });
});

it.each([
  ['a file', async () => join(folder.path, 'bench.sqlite')],
  ['PostgreSQL', () => cluster.empty()],
])(
  '%s: a worker killed outright gives its work back; every content is measured once, and what is no recording is set aside',
  async (_, placeOf) => {
    const place = await placeOf();
    const store = await openBatches(place, countingOrigin());
    const how = { workers: 2, kills: 1, lease: 4, statusOf: () => store.status(METHOD_VERSION) };
    const { at, status, recordings } = await measureAll(cli, place, folder.path, how);
    await store.close();
    expect(at).toHaveLength(1);
    expect(status.files).toMatchObject({ open: 0, claimed: 0, poisoned: 0 });
    expect(status.sides).toMatchObject({ open: 0, claimed: 0, done: contents.size, poisoned: 1 });
    expect(status.poisoned[0].why).toContain('is not a recording');
    const measured = recordings.filter(({ state }: { state: string }) => state === 'done');
    expect(new Set(measured.map(({ fingerprint }: { fingerprint: string }) => fingerprint))).toEqual(contents);
    for (const { figures } of measured) expect(figures.length).toBeGreaterThan(0);
  },
);
