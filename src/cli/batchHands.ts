/** Threads that measure recordings for `batch work`, each one recording at a time; one that ended is begun anew. */
import { Worker } from 'node:worker_threads';
import type { Hands } from '../batch/work.ts';
import type { SideDocument } from '../core/advise/document.ts';
import type { NamedLimits } from '../core/advise/limitsFile.ts';
import type { BatchReply, BatchRequest } from './batchThread.ts';

/** Where a thread's code stands in the built command line. */
const BUILT = new URL('./batchThread.mjs', import.meta.url);

export interface Thread extends Hands {
  end(): Promise<void>;
}

/** @param limits that its verdicts go by; left out: the usual ones */
export function startThread(limits?: NamedLimits, code: URL = BUILT): Thread {
  let worker: Worker | null = null;
  const ask = (request: BatchRequest): Promise<string | SideDocument> =>
    new Promise((resolve, reject) => {
      const thread = worker ?? new Worker(code);
      worker = thread;
      const over = (): void => {
        thread.off('message', told).off('error', failed).off('exit', ended);
      };
      const broken = (why: string): void => {
        worker = null;
        over();
        // what comes later from a thread that broke is nobody's
        thread.on('error', () => undefined);
        reject(new Error(`the thread that worked on it ended (${why})`));
      };
      const told = (reply: BatchReply): void => {
        over();
        if (reply.ok) resolve(reply.result);
        else reject(new Error(reply.why));
      };
      const failed = (error: Error): void => broken(error.message);
      const ended = (status: number): void => broken(`status ${status}`);
      thread.on('message', told).on('error', failed).on('exit', ended);
      thread.postMessage(request);
    });
  return {
    fingerprint: async (file) => (await ask({ file })) as string,
    measure: async (file, record, sha256) =>
      (await ask({ file, measure: { record, sha256, ...(limits === undefined ? {} : { limits }) } })) as SideDocument,
    async end() {
      await worker?.terminate();
    },
  };
}
