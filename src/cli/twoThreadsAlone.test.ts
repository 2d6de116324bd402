/** What two threads are begun and ended for, with threads that the test made; twoThreads.test.ts measures with real ones. */
import { existsSync } from 'node:fs';
import { beforeEach, expect, it, vi } from 'vitest';
import type { Recording } from '../core/capture/recording.ts';
import type { SampleThread } from '../core/side/sharedPasses.ts';
import { CannotError, UsageError } from './command.ts';
import { twoThreads } from './twoThreads.ts';

const told = vi.hoisted(() => ({
  cores: 2,
  isWorth: true,
  begun: [] as FakeWorker[],
  shared: [] as { threads: SampleThread[]; explain: (why: object) => Error }[],
  listen: async (): Promise<unknown> => 'heard',
}));
interface FakeWorker {
  readonly code: URL;
  readonly how: object;
  ended: boolean;
  sent: unknown[][];
  tell(event: string, what: unknown): void;
}
vi.mock('node:os', async (original) => ({
  ...(await original<typeof import('node:os')>()),
  availableParallelism: () => told.cores,
}));
vi.mock('node:worker_threads', async (original) => ({
  ...(await original<typeof import('node:worker_threads')>()),
  Worker: class {
    ended = false;
    sent: unknown[][] = [];
    private heard = new Map<string, (what: unknown) => void>();
    readonly code: URL;
    readonly how: object;
    constructor(code: URL, how: object) {
      this.code = code;
      this.how = how;
      told.begun.push(this);
    }
    on(event: string, tell: (what: unknown) => void) {
      this.heard.set(event, tell);
    }
    tell(event: string, what: unknown) {
      this.heard.get(event)?.(what);
    }
    postMessage(...sent: unknown[]) {
      this.sent.push(sent);
    }
    async terminate() {
      this.ended = true;
    }
  },
}));
vi.mock('../core/side/sharedPasses.ts', () => ({
  isWorthSharing: (_: object, least?: number) => told.isWorth && least !== 7,
  sharedPasses(threads: SampleThread[], _: object, explain: (why: object) => Error) {
    told.shared.push({ threads, explain });
    return { listen: () => told.listen(), readPassages: async (tasks: unknown) => ['readings', tasks] };
  },
}));
vi.mock('../core/side/threadMessages.ts', () => ({ memoryIn: () => ['its memory'] }));

beforeEach(() => Object.assign(told, { cores: 2, isWorth: true, begun: [], shared: [], listen: async () => 'heard' }));
const file = { fd: 9, name: 'side.wav', size: 100 };
const format = { frames: 10 };
const here = new URL(import.meta.url);
const begin = (code: URL = here, least?: number) => twoThreads(file, { format } as unknown as Recording, code, least);

it('one thread does where the recording is short, there is one core, or their code is not there', () => {
  expect(begin()).not.toBeNull();
  expect(told.begun).toHaveLength(2);
  expect(begin(here, 7)).toBeNull();
  told.isWorth = false;
  expect(begin()).toBeNull();
  Object.assign(told, { isWorth: true, cores: 1 });
  expect(begin()).toBeNull();
  told.cores = 2;
  expect(begin(new URL('./none.mjs', here))).toBeNull();
  // beside this file nothing is built
  expect(existsSync(new URL('./sideThread.mjs', here))).toBe(false);
  expect(twoThreads(file, { format } as unknown as Recording)).toBeNull();
  expect(told.begun).toHaveLength(2);
});

it('each pass has two threads of its own, and the second leaves none', async () => {
  const threads = begin();
  for (const { code, how } of told.begun) {
    expect([code, how]).toEqual([
      here,
      {
        workerData: { file, format },
        resourceLimits: { maxYoungGenerationSizeMb: expect.any(Number), maxOldGenerationSizeMb: expect.any(Number) },
      },
    ]);
  }
  expect(await threads?.listen(() => undefined)).toBe('heard');
  expect(told.begun.map(({ ended }) => ended)).toEqual([true, true, false, false]);
  expect(await threads?.readPassages('tasks' as never, () => undefined)).toEqual(['readings', 'tasks']);
  expect(told.begun.map(({ ended }) => ended)).toEqual([true, true, true, true]);
  expect(told.shared.map(({ threads: own }) => own.length)).toEqual([2, 2]);
});

it('are ended when they are to be', async () => {
  const threads = begin();
  await threads?.end();
  expect(told.begun.map(({ ended }) => ended)).toEqual([true, true]);
  await threads?.end();
});

it('a thread is asked with its memory handed over, and heard by whoever listens last', async () => {
  await begin()?.listen(() => undefined);
  const [thread] = told.shared[0].threads;
  const [worker] = told.begun;
  thread.ask({ kind: 'x' } as never);
  expect(worker.sent).toEqual([[{ kind: 'x' }, ['its memory']]]);
  // nobody listens yet
  worker.tell('message', 'early');
  worker.tell('error', new Error('early'));
  const heard: unknown[] = [];
  thread.hear(
    (reply) => heard.push(reply),
    (error) => heard.push(error.message),
  );
  worker.tell('message', 'late');
  worker.tell('error', new Error('broken'));
  expect(heard).toEqual(['late', 'broken']);
});

it('what is wrong with the file is bad usage, what a thread could not do is not', async () => {
  await begin()?.listen(() => undefined);
  const { explain } = told.shared[0];
  const [coded, plain] = [explain({ message: 'm', code: 'changed' }), explain({ message: 'm', code: null })];
  expect([coded.message, plain.message]).toEqual(['m', 'm']);
  expect(coded).toBeInstanceOf(UsageError);
  expect(plain).toBeInstanceOf(CannotError);
});
