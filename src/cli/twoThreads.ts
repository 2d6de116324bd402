/** Two threads of Node that go over a long recording side by side; docs/decisions/two-threads.md tells why. */
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Recording } from '../core/capture/recording.ts';
import type { SidePasses } from '../core/side/examineSide.ts';
import { isWorthSharing, type SampleThread, sharedPasses } from '../core/side/sharedPasses.ts';
import { memoryIn, type ThreadReply } from '../core/side/threadMessages.ts';
import { CannotError, UsageError } from './command.ts';
import type { OpenFile } from './fileSource.ts';

/** MB for what is new; more would be room that is never given back, for the large arrays lie elsewhere */
const ROOM_FOR_NEW = 6;
/** MB at most for what stays; ten times what three hours need, and little enough that garbage is looked for often */
const ROOM_FOR_OLD = 1024;

export interface TwoThreads extends SidePasses {
  end(): Promise<void>;
}

/** Where a thread's code stands in the built command line. */
const BUILT = new URL('./sideThread.mjs', import.meta.url);

/**
 * @returns null where one thread does as well: a short recording, one core, or FLAC, whose checksum is taken over all its
 *   samples in order
 */
export function twoThreads(
  file: OpenFile,
  recording: Recording,
  code: URL = BUILT,
  leastFrames?: number,
): TwoThreads | null {
  const { format } = recording;
  if (!isWorthSharing(format, leastFrames)) return null;
  if (availableParallelism() < 2 || !existsSync(code)) return null;
  let workers: Worker[] = [];
  const begin = (): void => {
    workers = [0, 1].map(
      () =>
        new Worker(code, {
          workerData: { file, format },
          resourceLimits: { maxYoungGenerationSizeMb: ROOM_FOR_NEW, maxOldGenerationSizeMb: ROOM_FOR_OLD },
        }),
    );
  };
  const end = async (): Promise<void> => {
    await Promise.all(workers.splice(0).map((worker) => worker.terminate()));
  };
  const passes = (): SidePasses =>
    sharedPasses(workers.map(threadOf), format, ({ message, code }) =>
      code !== null ? new UsageError(message) : new CannotError(message),
    );
  begin();
  return {
    // each pass has threads of its own: what the first leaves lying about is no hindrance to the arrays of the second
    async listen(onProgress) {
      const heard = await passes().listen(onProgress);
      await end();
      begin();
      return heard;
    },
    // nothing is asked of them after the tones: what they hold goes back before the document is made
    async readPassages(tasks, onProgress) {
      const readings = await passes().readPassages(tasks, onProgress);
      await end();
      return readings;
    },
    end,
  };
}

function threadOf(worker: Worker): SampleThread {
  let take: (reply: ThreadReply) => void = () => undefined;
  let broken: (error: Error) => void = () => undefined;
  worker.on('message', (reply: ThreadReply) => take(reply));
  worker.on('error', (error: Error) => broken(error));
  return {
    ask: (request) => worker.postMessage(request, memoryIn(request)),
    hear(next, ifBroken) {
      take = next;
      broken = ifBroken;
    },
  };
}
