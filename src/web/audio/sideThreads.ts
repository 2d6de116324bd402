/** Two workers that go over a long recording side by side, as the command line's two threads do. */
import { CaptureError } from '../../core/capture/captureError.ts';
import type { Recording } from '../../core/capture/recording.ts';
import type { SidePasses } from '../../core/side/examineSide.ts';
import { isWorthSharing, type SampleThread, sharedPasses } from '../../core/side/sharedPasses.ts';
import { memoryIn, type ThreadReply } from '../../core/side/threadMessages.ts';

/** @returns null where one thread does as well; the workers end with the one that asked for them */
export function sideThreads(file: File, recording: Recording): SidePasses | null {
  if (!isWorthSharing(recording.format) || navigator.hardwareConcurrency < 2) return null;
  const threads = [0, 1].map(() => threadOf(file));
  return sharedPasses(threads, recording.format, ({ message, code }) =>
    code === null ? new Error(message) : new CaptureError(code, message),
  );
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
