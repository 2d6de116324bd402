/** SHA-256 of a file, taken in a thread of its own so that measuring does not wait for it. */
import { Worker } from 'node:worker_threads';

const reader = `
const { workerData, parentPort } = require('node:worker_threads');
const { createHash } = require('node:crypto');
const { openSync, readSync, closeSync } = require('node:fs');
const file = openSync(workerData, 'r');
const hash = createHash('sha256');
const part = Buffer.alloc(1 << 20);
for (let got; (got = readSync(file, part, 0, part.length, null)) > 0; ) hash.update(part.subarray(0, got));
closeSync(file);
parentPort.postMessage(hash.digest('hex'));
`;

export function fileFingerprint(path: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(reader, { eval: true, workerData: path });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}
