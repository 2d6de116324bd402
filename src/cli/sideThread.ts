/** A second thread of `measure`: opens the same file for itself, listens to its part or reads its tones, sends back figures. */
import { parentPort, workerData } from 'node:worker_threads';
import { listenToPart } from '../core/advise/listen.ts';
import { CaptureError } from '../core/capture/captureError.ts';
import { openRecording } from '../core/capture/openRecording.ts';
import type { Recording } from '../core/capture/recording.ts';
import { readTone } from '../core/measure/measureSide.ts';
import { openFileSource } from './fileSource.ts';
import type { ThreadReply, ThreadRequest } from './sideMessages.ts';

const port = parentPort!;
/** Arrays are handed over, not copied: this thread is done with them. */
const reply = (message: ThreadReply): void => port.postMessage(message, [...new Set(memoryIn(message))]);

function memoryIn(data: unknown): ArrayBuffer[] {
  if (ArrayBuffer.isView(data)) return [data.buffer as ArrayBuffer];
  return typeof data === 'object' && data !== null ? Object.values(data).flatMap(memoryIn) : [];
}

let opened: Promise<Recording> | null = null;
const recording = (): Promise<Recording> => {
  opened ??= openFileSource(workerData as string).then(openRecording);
  return opened;
};

/** Progress is told at most twenty times a second. */
function counter(): (frames: number) => void {
  let frames = 0;
  let told = 0;
  return (more) => {
    frames += more;
    const now = performance.now();
    if (now - told < 50) return;
    told = now;
    reply({ kind: 'frames', frames });
    frames = 0;
  };
}

async function answer(request: ThreadRequest): Promise<void> {
  const whole = await recording();
  const count = counter();
  if (request.kind === 'read') {
    reply({ kind: 'tone', index: request.index, reading: await readTone(whole, request.task, count) });
    return;
  }
  const watched: Recording = {
    ...whole,
    async *blocks(range) {
      for await (const block of whole.blocks(range)) {
        yield block;
        count(block.frames);
      }
    },
  };
  reply({ kind: 'part', part: await listenToPart(watched, request.range) });
}

port.on('message', (request: ThreadRequest) => {
  answer(request).catch((error: unknown) => {
    const message = error instanceof Error ? error.message : String(error);
    reply({ kind: 'failed', message, ofCapture: error instanceof CaptureError });
  });
});
