/**
 * The two passes over a long recording, shared by this thread and a second one: the first pass by halves, the second tone by
 * tone. docs/decisions/two-threads.md tells why.
 */
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { SidePasses } from '../core/advise/examineSide.ts';
import { joinParts, type ListenedPart, listenToPart, PART_FRAMES } from '../core/advise/listen.ts';
import type { Recording } from '../core/capture/recording.ts';
import { readTone, type ToneTask } from '../core/measure/measureSide.ts';
import type { ToneReading } from '../core/measure/toneEstimator.ts';
import { CannotError, UsageError } from './command.ts';
import type { ThreadReply, ThreadRequest } from './sideMessages.ts';

/** A shorter recording is done before a second thread would have started, frames. */
const LEAST_FRAMES = 64 * PART_FRAMES;

export interface TwoThreads extends SidePasses {
  end(): Promise<void>;
}

/** Where the second thread's code stands in the built command line. */
const BUILT = new URL('./sideThread.mjs', import.meta.url);

/**
 * @returns null where one thread does as well: a short recording, one core, or FLAC, whose checksum is taken over all its
 *   samples in order
 */
export function twoThreads(
  path: string,
  recording: Recording,
  code: URL = BUILT,
  leastFrames: number = LEAST_FRAMES,
): TwoThreads | null {
  const { frames, container } = recording.format;
  if (container === 'flac' || frames < leastFrames || availableParallelism() < 2 || !existsSync(code)) return null;
  const worker = new Worker(code, { workerData: path });
  const ask = (request: ThreadRequest): void => worker.postMessage(request);

  /** Calls `take` with every answer until it returns true. */
  const answers = (take: (reply: ThreadReply) => boolean): Promise<void> =>
    new Promise((resolve, reject) => {
      const onMessage = (reply: ThreadReply): void => {
        if (reply.kind === 'failed') {
          done();
          reject(reply.ofCapture ? new UsageError(reply.message) : new CannotError(reply.message));
        } else if (take(reply)) {
          done();
          resolve();
        }
      };
      const onError = (error: Error): void => {
        done();
        reject(error);
      };
      const done = (): void => {
        worker.off('message', onMessage);
        worker.off('error', onError);
      };
      worker.on('message', onMessage);
      worker.on('error', onError);
    });

  return {
    async listen(onProgress) {
      const half = Math.round(frames / PART_FRAMES / 2) * PART_FRAMES;
      let told = 0;
      const count = (more: number): void => {
        told += more;
        onProgress(Math.min(1, told / frames));
      };
      let second: ListenedPart | null = null;
      const theirs = answers((reply) => {
        if (reply.kind === 'frames') count(reply.frames);
        if (reply.kind === 'part') second = reply.part;
        return reply.kind === 'part';
      });
      ask({ kind: 'listen', range: { fromFrame: half, toFrame: frames } });
      const [first] = await Promise.all([
        listenToPart(counted(recording, count), { fromFrame: 0, toFrame: half }),
        theirs,
      ]);
      onProgress(1);
      return joinParts(recording.format, [first, second as unknown as ListenedPart]);
    },

    async readTones(tasks, onProgress) {
      const readings: ToneReading[] = new Array(tasks.length);
      const length = ({ fromFrame, toFrame }: ToneTask): number => toFrame - fromFrame;
      const whole = tasks.reduce((sum, task) => sum + length(task), 0);
      let told = 0;
      const count = (more: number): void => {
        told += more;
        onProgress?.(Math.min(1, told / whole));
      };
      // the longest first, each thread taking the next when it is free
      const waiting = tasks.map((_, i) => i).sort((a, b) => length(tasks[a]) - length(tasks[b]));
      let out = 0;
      const hand = (): boolean => {
        const index = waiting.pop();
        if (index === undefined) return false;
        out += 1;
        ask({ kind: 'read', index, task: tasks[index] });
        return true;
      };
      const theirs = answers((reply) => {
        if (reply.kind === 'frames') count(reply.frames);
        if (reply.kind !== 'tone') return false;
        readings[reply.index] = reply.reading;
        out -= 1;
        return !hand() && out === 0;
      });
      // two at a time, so that the second thread need not wait for this one to hear of it
      if (!hand()) return readings;
      hand();
      const ours = async (): Promise<void> => {
        for (let index = waiting.pop(); index !== undefined; index = waiting.pop()) {
          readings[index] = await readTone(recording, tasks[index], count);
          await new Promise((resolve) => setImmediate(resolve));
        }
      };
      await Promise.all([ours(), theirs]);
      return readings;
    },

    async end() {
      await worker.terminate();
    },
  };
}

function counted(recording: Recording, count: (frames: number) => void): Recording {
  return {
    ...recording,
    async *blocks(range) {
      let sinceWaited = 0;
      for await (const block of recording.blocks(range)) {
        yield block;
        count(block.frames);
        sinceWaited += block.frames;
        if (sinceWaited > 64 * PART_FRAMES) {
          // lets the other thread's progress be heard
          sinceWaited = 0;
          await new Promise((resolve) => setImmediate(resolve));
        }
      }
    },
  };
}
