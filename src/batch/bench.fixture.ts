/** For tests: the command line as it is built, a database and a folder. */
import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
// @ts-expect-error a script without types
import { program } from '../../bench/batchKills.mjs';
import { startCluster } from '../store/cluster.fixture.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';

export type BatchBench = Awaited<ReturnType<typeof openBatchBench>>;

export async function openBatchBench() {
  const folder = scratchFolder();
  const cluster = await startCluster();
  const cli: string = await program();
  return {
    /** of the folder */
    path: folder.path,
    cluster,
    cli,
    async close(): Promise<void> {
      await cluster.end();
      folder.remove();
      rmSync(dirname(cli), { recursive: true, force: true });
    },
  };
}
