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

/** The file comes first, then requests. */
self.onmessage = ({ data }: MessageEvent<File | ThreadRequest>) => {
  if (data instanceof File) file = data;
  else answerThread(recording, data, reply);
};
