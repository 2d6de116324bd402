/**
 * The two passes over a long recording, shared by threads: the first pass in equal parts, the second tone by tone. What a
 * thread is, a Node worker or a browser's, is the caller's. docs/decisions/two-threads.md tells why.
 */
import type { CaptureFormat } from '../capture/recording.ts';

import type { PassageTask, Readings } from '../measure/estimators.ts';
import type { SidePasses } from './examineSide.ts';
import { type ListenedPart, PART_FRAMES } from './listen.ts';
import type { ThreadFailure, ThreadReply, ThreadRequest } from './threadMessages.ts';

/** A shorter recording is done before two threads would have started, frames. */
const LEAST_FRAMES = 64 * PART_FRAMES;

/** Not for FLAC, whose checksum is taken over all its samples in order. */
export const isWorthSharing = ({ container, frames }: CaptureFormat, leastFrames: number = LEAST_FRAMES): boolean =>
  container !== 'flac' && frames >= leastFrames;

/** Requests of one thread are answered one after the other. */
export interface SampleThread {
  ask(request: ThreadRequest): void;
  /** from now on, what the thread says goes here; a thread that breaks goes to `broken` */
  hear(take: (reply: ThreadReply) => void, broken: (error: Error) => void): void;
}

/**
 * @param threads one up, each with its own view of the recording
 * @param failed the error for what a thread could not do
 */
export function sharedPasses(
  threads: readonly SampleThread[],
  format: CaptureFormat,
  failed: (failure: ThreadFailure) => Error,
): SidePasses {
  const { frames } = format;

  /** Every thread's replies go to `take` until it returns true for one of that thread's. */
  const untilDone = (take: (reply: ThreadReply, thread: number) => boolean): Promise<void>[] =>
    threads.map(
      (thread, i) =>
        new Promise((resolve, reject) => {
          thread.hear((reply) => {
            if (reply.kind === 'failed') reject(failed(reply));
            else if (take(reply, i)) resolve();
          }, reject);
        }),
    );
  const counter = (whole: number, onProgress?: (fraction: number) => void): ((more: number) => void) => {
    let told = 0;
    return (more) => {
      told += more;
      onProgress?.(Math.min(1, told / whole));
    };
  };

  return {
    async listen(onProgress) {
      const count = counter(frames, onProgress);
      const parts: ListenedPart[] = new Array(threads.length);
      const done = untilDone((reply, i) => {
        if (reply.kind === 'frames') count(reply.frames);
        if (reply.kind === 'part') parts[i] = reply.part;
        return reply.kind === 'part';
      });
      const seam = (i: number): number =>
        i === threads.length ? frames : Math.round((i * frames) / PART_FRAMES / threads.length) * PART_FRAMES;
      threads.forEach((thread, i) => {
        thread.ask({ kind: 'listen', range: { fromFrame: seam(i), toFrame: seam(i + 1) } });
      });
      await Promise.all(done);
      return new Promise((resolve, reject) => {
        threads[0].hear((reply) => {
          if (reply.kind === 'failed') reject(failed(reply));
          if (reply.kind !== 'heard') return;
          onProgress(1);
          resolve(reply.heard);
        }, reject);
        threads[0].ask({ kind: 'join', format, parts });
      });
    },

    async readPassages(tasks, onProgress) {
      const readings: Readings[] = new Array(tasks.length);
      const length = ({ fromFrame, toFrame }: PassageTask): number => toFrame - fromFrame;
      const count = counter(
        tasks.reduce((sum, task) => sum + length(task), 0),
        onProgress,
      );
      // the longest first, each thread taking the next when it is free
      const waiting = tasks.map((_, i) => i).sort((a, b) => length(tasks[a]) - length(tasks[b]));
      const out = threads.map(() => 0);
      const hand = (i: number): void => {
        const index = waiting.pop();
        if (index === undefined) return;
        out[i] += 1;
        threads[i].ask({ kind: 'read', index, task: tasks[index] });
      };
      const done = untilDone((reply, i) => {
        if (reply.kind === 'frames') count(reply.frames);
        if (reply.kind !== 'readings') return false;
        readings[reply.index] = reply.readings;
        out[i] -= 1;
        hand(i);
        return out[i] === 0;
      });
      // two at a time, so that a thread need not wait until its answer was heard
      for (let round = 0; round < 2; round++)
        threads.forEach((_, i) => {
          hand(i);
        });
      await Promise.all(done.filter((_, i) => out[i] > 0));
      return readings;
    },
  };
}
