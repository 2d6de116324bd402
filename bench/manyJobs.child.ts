/** The program of `bench/manyJobs.mjs`: 100,000 jobs on both databases, and how long each question takes. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startCluster } from '../src/store/cluster.fixture.ts';
import { askedOf, fillStore, overviewsOf } from '../src/store/manyJobs.fixture.ts';
import { openStore } from '../src/store/store.ts';

const count = Number(process.argv[2] ?? 100_000);
const folder = mkdtempSync(join(tmpdir(), 'platterside-many-'));
const cluster = await startCluster();
try {
  console.log(`${count} jobs, ms (processor time of the asking process), best of some turns; aim: under 100 ms`);
  for (const [engine, place] of [
    ['SQLite', join(folder, 'bench.sqlite')],
    ['PostgreSQL', await cluster.empty()],
  ]) {
    await fillStore(place, count);
    const store = await openStore(place);
    for (const [name, { ms, processor }] of [...(await askedOf(store, count)), ...(await overviewsOf(store, count))])
      console.log(`${engine.padEnd(12)}${name.padEnd(32)}${ms.toFixed(1).padStart(8)} (${processor.toFixed(1)})`);
    await store.close();
  }
} finally {
  await cluster.end();
  rmSync(folder, { recursive: true, force: true });
}
