/** Threads of `batch work`, with code of the test’s own in them. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { startThread, type Thread } from './batchHands.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const file = join(folder.path, 'thread.mjs');
writeFileSync(
  file,
  `import { parentPort, threadId } from 'node:worker_threads';
parentPort.on('message', (request) => {
  if (request.file === 'throw') throw new Error('it broke');
  if (request.file === 'end') process.exit(3);
  if (request.file === 'no') parentPort.postMessage({ ok: false, why: 'it is no recording' });
  else if (request.file !== 'silent') parentPort.postMessage({ ok: true, result: { threadId, request } });
});`,
);
const code = pathToFileURL(file);
let thread: Thread;
afterEach(() => thread.end());
const told = async (answer: Promise<unknown>) => (await answer) as { threadId: number; request: object };

it('one thread answers one request after the other, with its limits where there are some', async () => {
  thread = startThread(undefined, code);
  const first = await told(thread.fingerprint('a.wav'));
  expect(first.request).toEqual({ file: 'a.wav' });
  const second = await told(thread.measure('b.wav', 'record', 'sha'));
  expect(second.request).toEqual({ file: 'b.wav', measure: { record: 'record', sha256: 'sha' } });
  expect(second.threadId).toBe(first.threadId);
  const limits = { deckClass: 'shop', limits: {} } as unknown as Parameters<typeof startThread>[0];
  const other = startThread(limits, code);
  expect((await told(other.measure('b.wav', 'record', 'sha'))).request).toEqual({
    file: 'b.wav',
    measure: { record: 'record', sha256: 'sha', limits },
  });
  await other.end();
});

it('what a thread could not do is said, and the thread goes on', async () => {
  thread = startThread(undefined, code);
  const { threadId } = await told(thread.fingerprint('a.wav'));
  await expect(thread.fingerprint('no')).rejects.toThrow('it is no recording');
  expect((await told(thread.fingerprint('a.wav'))).threadId).toBe(threadId);
});

it.each([
  ['throw', 'the thread that worked on it ended (it broke)'],
  ['end', 'the thread that worked on it ended (status 3)'],
])('a thread that ended is begun anew: %s', async (request, sentence) => {
  thread = startThread(undefined, code);
  const { threadId } = await told(thread.fingerprint('a.wav'));
  await expect(thread.fingerprint(request)).rejects.toThrow(sentence);
  expect((await told(thread.fingerprint('a.wav'))).threadId).not.toBe(threadId);
});

it('ended in mid-work, it says so; ended before it began, nothing happens', async () => {
  thread = startThread(undefined, code);
  await thread.end();
  const waits = expect(thread.fingerprint('silent')).rejects.toThrow('the thread that worked on it ended (status ');
  await thread.end();
  await waits;
});
