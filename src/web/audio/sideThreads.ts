/** Workers beside the one that reads a long recording: two that go over it side by side, as the command line's two threads do, and one for its fingerprint. */
import { CaptureError } from '../../core/capture/captureError.ts';
import { fingerprint } from '../../core/capture/fingerprint.ts';
import type { Recording } from '../../core/capture/recording.ts';
import type { SidePasses } from '../../core/side/examineSide.ts';
import { isWorthSharing, type SampleThread, sharedPasses } from '../../core/side/sharedPasses.ts';
import { memoryIn, type ThreadFailure, type ThreadReply } from '../../core/side/threadMessages.ts';
import { fileSource } from '../fileSource.ts';
import type { FingerprintReply } from './fingerprintWorker.ts';

const isAlone = (recording: Recording): boolean =>
  !isWorthSharing(recording.format) || navigator.hardwareConcurrency < 2;

const failed = ({ message, code }: ThreadFailure): Error =>
  code === null ? new Error(message) : new CaptureError(code, message);

/** @returns null where one thread does as well; the workers end with the one that asked for them */
export function sideThreads(file: File, recording: Recording): SidePasses | null {
  if (isAlone(recording)) return null;
  const threads = [0, 1].map(() => threadOf(file));
  return sharedPasses(threads, recording.format, failed);
}

/**
 * A thread that asks and answers gets to neither while it takes a fingerprint, and the other two wait for it: so one of its own.
 * @returns SHA-256 of the file's bytes
 */
export async function fingerprintBeside(file: File, recording: Recording): Promise<string> {
  if (isAlone(recording)) return fingerprint(fileSource(file));
  const worker = new Worker(new URL('./fingerprintWorker.ts', import.meta.url), { type: 'module' });
  const reply = await new Promise<FingerprintReply>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<FingerprintReply>) => resolve(data);
    worker.onerror = (event) => reject(new Error(event.message));
    worker.postMessage(file);
  });
  worker.terminate();
  if (reply.kind === 'failed') throw failed(reply);
  return reply.sha256;
}

function threadOf(file: File): SampleThread {
  const worker = new Worker(new URL('./sidePartWorker.ts', import.meta.url), { type: 'module' });
  worker.postMessage(file);
  return {
    ask: (request) => worker.postMessage(request, memoryIn(request)),
    hear(take, broken) {
      worker.onmessage = ({ data }: MessageEvent<ThreadReply>) => take(data);
      worker.onerror = (event) => broken(new Error(event.message));
    },
  };
}
