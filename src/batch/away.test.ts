/** The database stopped and started while `batch work` is at it: it is said, nothing that was kept is lost, and the work goes on. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { writeSides } from '../../bench/batchKills.mjs';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { type BatchStore, openBatches } from '../store/batch/batchStore.ts';
import { countingOrigin } from '../store/scratch.fixture.ts';
import { StoreAway } from '../store/storeError.ts';
import { until } from '../store/until.fixture.ts';
import { type BatchBench, openBatchBench } from './bench.fixture.ts';

let bench: BatchBench;
beforeAll(async () => {
  bench = await openBatchBench();
});
afterAll(() => bench?.close());

/** Runs a command of the product. */
function run(place: string, ...args: string[]) {
  const child = spawn(process.execPath, [bench.cli, 'batch', ...args, '--store', place], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const heard = { said: '', status: null as number | null };
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (bytes) => {
      heard.said += bytes;
    });
  child.on('close', (status) => {
    heard.status = status ?? -1;
  });
  return { child, heard };
}

/** Sides that this store knows to be measured. */
const measuredIn = async (store: BatchStore): Promise<ReadonlySet<string>> => {
  const rows = await store.report(METHOD_VERSION, null, 500);
  return new Set(rows.flatMap(({ state, fingerprint }) => (state === 'done' ? (fingerprint ?? []) : [])));
};

it('batch work says that the database does not answer, goes on when it does, and each content is measured once', async () => {
  const contents: Set<string> = writeSides(bench.path, 8);
  const place = await bench.cluster.empty();
  const added = run(place, 'add', join(bench.path, 'sides'), '--record', join(bench.path, 'side.record.json'));
  await until('all were added', () => added.heard.status !== null);
  expect(added.heard).toMatchObject({ status: 0 });
  let store = await openBatches(place, countingOrigin());
  const work = run(place, 'work', '--threads', '2', '--lease', '5');
  try {
    await until('some are measured', async () => (await measuredIn(store)).size >= 2);
    const before = await measuredIn(store);
    await bench.cluster.stop();
    await expect(store.status(METHOD_VERSION)).rejects.toThrow(StoreAway);
    await until('it is said', () => work.heard.said.includes('The database does not answer; asking again.'));
    expect(work.heard.status).toBeNull();
    const refused = run(place, 'status');
    await until('another command is refused', () => refused.heard.status !== null);
    expect(refused.heard).toEqual({
      status: 1,
      said: 'platterside: The database of the store does not answer: is it running, and is its address right?\n',
    });
    await bench.cluster.start();
    await until('the work is done', () => work.heard.status !== null);
    expect(work.heard.status).toBe(0);
    expect(work.heard.said).toContain('The database answers again.');
    await store.close();
    store = await openBatches(place, countingOrigin());
    const after = await measuredIn(store);
    expect([...before].filter((one) => !after.has(one))).toEqual([]);
    expect(after).toEqual(contents);
    expect((await store.status(METHOD_VERSION)).sides).toMatchObject({ open: 0, claimed: 0, poisoned: 1 });
  } finally {
    work.child.kill('SIGKILL');
    await store.close();
  }
});
