/** A thread of `measure`, asked here in this one: which recording it answers from, and what it hands over. */
import { mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, it, vi } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import type { Recording } from '../core/capture/recording.ts';
import type { ThreadReply } from '../core/side/threadMessages.ts';

const port = vi.hoisted(() => ({
  ask: (_: unknown): void => undefined,
  sent: [] as unknown[][],
  asked: [] as unknown[][],
  data: {} as object,
}));
vi.mock('node:worker_threads', async (original) => ({
  ...(await original<typeof import('node:worker_threads')>()),
  parentPort: {
    on(event: string, ask: typeof port.ask) {
      expect(event).toBe('message');
      port.ask = ask;
    },
    postMessage: (...sent: unknown[]) => port.sent.push(sent),
  },
  get workerData() {
    return port.data;
  },
}));
vi.mock('../core/side/answerThread.ts', () => ({
  answerThread: (...asked: unknown[]) => void port.asked.push(asked),
}));
vi.mock('../core/side/threadMessages.ts', () => ({ memoryIn: () => ['its memory'] }));

const folder = mkdtempSync(join(tmpdir(), 'platterside-thread-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const path = join(folder, 'side.wav');
const bytes = wave(seededIntegers(400, 16, 5), 16);
writeFileSync(path, bytes);

beforeEach(async () => {
  vi.resetModules();
  Object.assign(port, { sent: [], asked: [] });
  port.data = {
    file: { fd: openSync(path, 'r'), name: 'side.wav', size: bytes.length },
    format: { frames: 'as first read' },
  };
  await import('./sideThread.ts');
});

it('answers every request from the open file, read once, whose form is as the first thread read it', async () => {
  port.ask({ kind: 'listen' });
  port.ask({ kind: 'read' });
  expect(port.asked.map(([, request]) => request)).toEqual([{ kind: 'listen' }, { kind: 'read' }]);
  const [recording, again] = port.asked.map(([open]) => (open as () => Promise<Recording>)());
  expect((await recording).format).toEqual({ frames: 'as first read' });
  expect(await again).toBe(await recording);
  let frames = 0;
  for await (const block of (await recording).blocks({ fromFrame: 0, toFrame: 50 })) frames += block.frames;
  expect(frames).toBe(50);
  expect(port.asked[0][3]).toBe(port.asked[1][3]);
});

it('hands over the memory of what was heard, and copies readings', () => {
  port.ask({ kind: 'listen' });
  const reply = port.asked[0][2] as (message: ThreadReply) => void;
  for (const kind of ['heard', 'readings', 'progress']) reply({ kind } as unknown as ThreadReply);
  expect(port.sent).toEqual([
    [{ kind: 'heard' }, ['its memory']],
    [{ kind: 'readings' }, []],
    [{ kind: 'progress' }, ['its memory']],
  ]);
});
