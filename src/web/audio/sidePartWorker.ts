/** A thread of a reading: opens the file for itself, listens to its part or reads its passages, sends back figures. */
import { openRecording } from '../../core/capture/openRecording.ts';
import type { Recording } from '../../core/capture/recording.ts';
import { answerThread } from '../../core/side/answerThread.ts';
import { memoryIn, type ThreadReply, type ThreadRequest } from '../../core/side/threadMessages.ts';
import { fileSource } from '../fileSource.ts';

let file: File | null = null;
let opened: Promise<Recording> | null = null;
const recording = (): Promise<Recording> => {
  opened ??= openRecording(fileSource(file!));
  return opened;
};

/** Arrays are handed over, not copied: this thread is done with them. */
const reply = (message: ThreadReply): void => self.postMessage(message, { transfer: memoryIn(message) });

/** Two that were read at once would take turns at the file, each block a new place in it, and need twice the memory. */
let last: Promise<void> = Promise.resolve();

/** The file comes first, then requests, answered one after the other. */
self.onmessage = ({ data }: MessageEvent<File | ThreadRequest>) => {
  if (data instanceof File) file = data;
  else last = last.then(() => answerThread(recording, data, reply));
};
