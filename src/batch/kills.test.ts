import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { measureAll, writeSides } from '../../bench/batchKills.mjs';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { openBatches } from '../store/batch/batchStore.ts';
import { countingOrigin } from '../store/scratch.fixture.ts';
import { type BatchBench, openBatchBench } from './bench.fixture.ts';

let bench: BatchBench;
let contents: Set<string>;
beforeAll(async () => {
  bench = await openBatchBench();
  contents = writeSides(bench.path, 8);
});
afterAll(() => bench?.close());

it.each([
  ['a file', async () => join(bench.path, 'bench.sqlite')],
  ['PostgreSQL', () => bench.cluster.empty()],
])(
  '%s: a worker killed outright gives its work back; every content is measured once, and what is no recording is set aside',
  async (_, placeOf) => {
    const place = await placeOf();
    const store = await openBatches(place, countingOrigin());
    const how = { workers: 2, kills: 1, lease: 4, statusOf: () => store.status(METHOD_VERSION) };
    const { at, status, recordings } = await measureAll(bench.cli, place, bench.path, how);
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
