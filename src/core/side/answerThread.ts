/** The side of a thread that goes over samples: takes one request, tells how far it is, answers. */
import { CaptureError } from '../capture/captureError.ts';
import type { Recording } from '../capture/recording.ts';
import { readPassage } from '../measure/measureSide.ts';
import type { Shelf } from '../record/shelf.ts';
import { joinParts, listenToPart } from './listen.ts';
import type { ThreadReply, ThreadRequest } from './threadMessages.ts';

/** told at every so many frames, some 20 to 50 ms of work */
const TOLD_FRAMES = 2 ** 20;

/**
 * @param opened the thread's own view of the recording
 * @param reply called once or more, the last time with the answer
 * @param shelf where what is kept of a long recording goes; it takes up what the other threads' laid away
 */
export async function answerThread(
  opened: () => Promise<Recording>,
  request: ThreadRequest,
  reply: (message: ThreadReply) => void,
  shelf: Shelf | null = null,
): Promise<void> {
  let untold = 0;
  const count = (frames: number): void => {
    untold += frames;
    if (untold < TOLD_FRAMES) return;
    reply({ kind: 'frames', frames: untold });
    untold = 0;
  };
  try {
    if (request.kind === 'join') {
      reply({ kind: 'heard', heard: joinParts(request.format, request.parts, shelf) });
      return;
    }
    const recording = await opened();
    if (request.kind === 'read') {
      reply({ kind: 'readings', index: request.index, readings: await readPassage(recording, request.task, count) });
      return;
    }
    const watched: Recording = {
      ...recording,
      async *blocks(range) {
        for await (const block of recording.blocks(range)) {
          yield block;
          count(block.frames);
        }
      },
    };
    reply({ kind: 'part', part: await listenToPart(watched, request.range, shelf) });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    reply({ kind: 'failed', message, code: error instanceof CaptureError ? error.code : null });
  }
}
