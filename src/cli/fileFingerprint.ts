/** SHA-256 of an open file, taken in a thread of its own so that measuring does not wait for it. */
import { Worker } from 'node:worker_threads';
import { CaptureError } from '../core/capture/captureError.ts';
import type { OpenFile } from './fileSource.ts';

const reader = `
const { workerData: { fd, size }, parentPort } = require('node:worker_threads');
const { createHash } = require('node:crypto');
const { readSync } = require('node:fs');
const hash = createHash('sha256');
const part = Buffer.alloc(1 << 20);
let at = 0;
for (let got; at < size && (got = readSync(fd, part, 0, Math.min(part.length, size - at), at)) > 0; at += got)
  hash.update(part.subarray(0, got));
parentPort.postMessage({ at, digest: hash.digest('hex') });
`;

/**
 * Of the bytes that the file held when it was opened, no more and no less.
 * @throws CaptureError when it has become shorter
 */
export function fileFingerprint({ fd, name, size }: OpenFile): Promise<string> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(reader, { eval: true, workerData: { fd, size } });
    worker.once('message', ({ at, digest }: { at: number; digest: string }) => {
      const what = `it ended at byte ${at}, where ${size} bytes were expected`;
      if (at < size) reject(new CaptureError('changed-while-read', { file: name, what }));
      else resolve(digest);
    });
    worker.once('error', reject);
  });
}
