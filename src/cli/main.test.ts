/** The entry: the process's own streams, and what becomes of them when nobody reads any more. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Streams } from './command.ts';

const line = vi.hoisted(() => ({ run: async (_: readonly string[], __: unknown): Promise<number> => 0 }));
vi.mock('./commandLine.ts', () => ({ runCommandLine: (argv: string[], io: Streams) => line.run(argv, io) }));

type Broken = (error: object) => void;
let broken: { out: Broken; err: Broken };
let wrote: { out: string; err: string };
let io: Streams;
const [argv, status] = [process.argv, process.exitCode];
const terminals = [process.stdout, process.stderr].map(({ isTTY }) => isTTY);

beforeEach(() => {
  vi.resetModules();
  wrote = { out: '', err: '' };
  for (const name of ['out', 'err'] as const) {
    const stream: NodeJS.WriteStream = name === 'out' ? process.stdout : process.stderr;
    vi.spyOn(stream, 'write').mockImplementation((text) => {
      wrote[name] += text;
      return true;
    });
    vi.spyOn(stream as NodeJS.EventEmitter, 'on').mockImplementation((event, tell) => {
      expect(event).toBe('error');
      broken = { ...broken, [name]: tell as Broken };
      return stream;
    });
  }
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllEnvs();
  process.argv = argv;
  process.exitCode = status;
  [process.stdout.isTTY, process.stderr.isTTY] = terminals;
});

async function started(args: string[], ends = 0): Promise<readonly string[]> {
  process.argv = ['node', 'cli.mjs', ...args];
  let told: readonly string[] = [];
  line.run = async (given, streams) => {
    told = given;
    io = streams as Streams;
    return ends;
  };
  await import('./main.ts');
  return told;
}

it('gives what stands behind the program’s name to the command line, and ends as that does', async () => {
  expect(await started(['tilt', '--json'], 2)).toEqual(['tilt', '--json']);
  expect(process.exitCode).toBe(2);
  io.out('a');
  io.err('b');
  expect(wrote).toEqual({ out: 'a', err: 'b' });
});

it('shows colours and a bar on a terminal alone, and no colours where the environment says so', async () => {
  const seen = async (out: boolean | undefined, err: boolean | undefined) => {
    vi.resetModules();
    [process.stdout.isTTY, process.stderr.isTTY] = [out, err] as [boolean, boolean];
    await started([]);
    return [io.colour, io.progress];
  };
  vi.stubEnv('NO_COLOR', undefined);
  expect(await seen(true, undefined)).toEqual([true, false]);
  expect(await seen(undefined, true)).toEqual([false, true]);
  vi.stubEnv('NO_COLOR', '1');
  expect(await seen(true, true)).toEqual([false, true]);
});

it('ends quietly where nobody reads its output, and says what else is wrong with it', async () => {
  await started([]);
  const exit = vi.spyOn(process, 'exit').mockImplementation((code) => {
    throw new Error(`exit ${code}`);
  });
  expect(() => broken.out({ code: 'EPIPE' })).toThrow('exit 0');
  expect(wrote.err).toBe('');
  expect(() => broken.out({ code: 'ENOSPC' })).toThrow('exit 1');
  expect(wrote.err).toBe('platterside: standard output cannot be written (the disk is full)\n');
  // nobody reads the messages: the exit status still tells
  exit.mockClear();
  expect(broken.err({ code: 'EPIPE' })).toBeUndefined();
  expect(exit).not.toHaveBeenCalled();
});
