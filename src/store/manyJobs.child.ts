/** The program of `bench/manyJobs.mjs`: 100,000 jobs on both databases, and how long each question takes. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from './cluster.fixture.ts';
import { askedOf, fillStore, overviewsOf } from './manyJobs.fixture.ts';
import { openStore } from './store.ts';

const count = Number(process.argv[2] ?? 100_000);
const folder = mkdtempSync(join(tmpdir(), 'platterside-many-'));
const cluster = await startCluster();
try {
  const times = [];
  for (const place of [join(folder, 'bench.sqlite'), await cluster.empty()]) {
    await fillStore(place, count);
    const store = await openStore(place);
    times.push(new Map([...(await askedOf(store, count)), ...(await overviewsOf(store))]));
    await store.close();
  }
  const [file, shared] = times;
  console.log(`${count} jobs, ms, best of seven (aim: under 100)${' '.repeat(6)}SQLite  PostgreSQL`);
  for (const [name, ms] of file)
    console.log(`${name.padEnd(52)}${ms.toFixed(1).padStart(8)}${(shared.get(name) ?? 0).toFixed(1).padStart(12)}`);
} finally {
  await cluster.end();
  rmSync(folder, { recursive: true, force: true });
}
