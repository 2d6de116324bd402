import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Cluster, startCluster } from './cluster.fixture.ts';
import { given, scratchFolder } from './scratch.fixture.ts';
import { openStore } from './store.ts';

const folder = scratchFolder();
let cluster: Cluster;
beforeAll(async () => {
  cluster = await startCluster();
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
});

/** Resolves with the next change that is told. */
function hearing() {
  let heard = 0;
  const waiting = new Set<() => void>();
  return {
    told: () => {
      heard += 1;
      for (const one of waiting) one();
      waiting.clear();
    },
    get count() {
      return heard;
    },
    next: () => new Promise<void>((resolve) => void waiting.add(resolve)),
  };
}

describe.each([
  ['a file', async () => join(folder.path, 'bench.sqlite')],
  ['PostgreSQL', () => cluster.fresh()],
])('a change in %s', (_, place) => {
  it('by another program is told, with the time of the job', async () => {
    const at = await place();
    const [here, there] = [await openStore(at), await openStore(at)];
    const { id, updatedAt } = given(await here.createJob({ deck: { name: 'deck' } }));
    const ear = hearing();
    const watch = await here.watch(ear.told);
    const heard = ear.next();
    await there.setJobAside(id, 'a trial');
    await heard;
    const stamp = await here.jobStamp(id);
    expect(stamp).toBe(given(await there.job(id)).updatedAt);
    expect(stamp === null || stamp >= updatedAt).toBe(true);
    expect(await here.jobStamp('none')).toBeNull();
    await watch.end();
    const before = ear.count;
    await there.setJobAside(id, null);
    await new Promise((resolve) => setTimeout(resolve, 700));
    expect(ear.count).toBe(before);
    await Promise.all([here.close(), there.close()]);
  });
});

it('the line to the database comes back after an outage, and says that something may have changed', async () => {
  const store = await openStore(await cluster.fresh());
  const ear = hearing();
  const watch = await store.watch(ear.told);
  const back = ear.next();
  await cluster.stop();
  await cluster.start();
  await back;
  const heard = ear.next();
  await store.createJob({ deck: { name: 'deck' } });
  await heard;
  await watch.end();
  await store.close();
});
