import { rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { measureAll, program, writeSides } from '../../bench/batchKills.mjs';
import { type Cluster, startCluster } from '../store/cluster.fixture.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';

const folder = scratchFolder();
let cluster: Cluster;
let cli: string;
let contents: Set<string>;
beforeAll(async () => {
  cluster = await startCluster();
  cli = await program();
  contents = writeSides(folder.path, 12);
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
  rmSync(dirname(cli), { recursive: true, force: true });
});

it.each([
  ['PostgreSQL, two workers', () => cluster.empty(), 2],
  ['a file, one worker', async () => join(folder.path, 'bench.sqlite'), 1],
])('a worker killed outright gives its work back; every content is measured once: %s', async (_, place, workers) => {
  const { killed, status, recordings } = await measureAll(cli, await place(), folder.path, {
    workers,
    kills: 1,
    lease: 2,
  });
  expect(killed).toBe(1);
  expect(status.sides).toMatchObject({ open: 0, claimed: 0, done: contents.size, poisoned: 1 });
  expect(status.poisoned[0].why).not.toBe('');
  const measured = recordings.filter(({ state }: { state: string }) => state === 'done');
  expect(new Set(measured.map(({ fingerprint }: { fingerprint: string }) => fingerprint))).toEqual(contents);
  for (const { figures } of measured) expect(figures.length).toBeGreaterThan(0);
});
