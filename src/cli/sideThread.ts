/** A thread of `measure`: reads the open file for itself, listens to its part or reads its tones, sends back figures. */
import { parentPort, workerData } from 'node:worker_threads';
import { openRecording } from '../core/capture/openRecording.ts';
import type { Recording } from '../core/capture/recording.ts';
import { answerThread } from '../core/side/answerThread.ts';
import { memoryIn, type ThreadReply, type ThreadRequest } from '../core/side/threadMessages.ts';
import { FileShelf } from './fileShelf.ts';
import { bytesOfFile } from './fileSource.ts';

const port = parentPort!;

let opened: Promise<Recording> | null = null;
const recording = (): Promise<Recording> => {
  // what the header says of its length may have been written anew since the first thread read it
  opened ??= openRecording(bytesOfFile(workerData.file)).then((mine) => ({ ...mine, format: workerData.format }));
  return opened;
};

const shelf = new FileShelf();

/**
 * What was heard is handed over, not copied: this thread is done with it. Readings are small and stay until the end: copied, they lie with the
 * thread that keeps them, and not between the arrays that the next tone needs here.
 */
const reply = (message: ThreadReply): void =>
  port.postMessage(message, message.kind === 'readings' ? [] : memoryIn(message));

port.on('message', (request: ThreadRequest) => answerThread(recording, request, reply, shelf));
