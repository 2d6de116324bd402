/** Programs that read a sound device and write raw samples: which are there, and how each is called. No shell is in between. */
import { type ChildProcess, spawn } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { UsageError } from './command.ts';

/** Each gives signed 32-bit little-endian frames, two channels. */
const CALLS: Readonly<Record<string, (device: string, rateHz: number) => readonly string[]>> = {
  arecord: (device, rate) => ['-q', '-t', 'raw', '-D', device, '-f', 'S32_LE', '-c', '2', '-r', String(rate), '-'],
  sox: (device, rate) => [
    ...['-q', '--no-show-progress', '-t', 'alsa', '-r', String(rate), '-c', '2', device],
    ...['-t', 'raw', '-e', 'signed-integer', '-b', '32', '-L', '-'],
  ],
  ffmpeg: (device, rate) => [
    ...['-nostdin', '-loglevel', 'error', '-f', device.startsWith('pulse:') ? 'pulse' : 'alsa'],
    ...['-ac', '2', '-ar', String(rate), '-i', device.replace(/^pulse:/, '')],
    ...['-f', 's32le', '-'],
  ],
};

export const recorderNames = Object.keys(CALLS);

function isThere(program: string): boolean {
  return (process.env.PATH ?? '').split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, program), constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

export interface Recorder {
  readonly program: string;
  readonly samples: AsyncIterable<Uint8Array>;
  /** Once it has ended: what it said on its standard error, where it ended by itself; null where it was stopped. */
  fault(): Promise<string | null>;
  stop(): void;
}

/**
 * Starts a recorder on a device.
 * @param named the program to use; else the first one that is there
 * @throws UsageError where there is none
 */
export function startRecorder(device: string, rateHz: number, named?: string): Recorder {
  if (named !== undefined && !Object.hasOwn(CALLS, named)) {
    throw new UsageError(`--recorder ${named}: one of ${recorderNames.join(', ')} was expected`);
  }
  if (device.startsWith('-') || device === '') {
    throw new UsageError(`--input ${device}: the name of a sound device, or - for standard input, was expected`);
  }
  const pulse = device.startsWith('pulse:');
  const usable = pulse ? ['ffmpeg'] : recorderNames;
  const program = (named === undefined ? usable : [named]).find(isThere);
  if (program === undefined || (pulse && program !== 'ffmpeg')) {
    const wanted = named ?? usable.join(', ');
    throw new UsageError(
      `--input ${device}: no recorder was found (${wanted}); install one, or pipe samples into --input -`,
    );
  }
  const child: ChildProcess = spawn(program, CALLS[program](device, rateHz), { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  let broken: string | null = null;
  let stopped = false;
  child.stderr?.on('data', (data: Buffer) => {
    said = (said + data.toString()).slice(-400);
  });
  // its samples end before it does
  const ended = new Promise<void>((resolve) => {
    child.on('error', (error) => {
      broken = error.message;
      resolve();
    });
    child.on('close', (code) => {
      const last = said.trim().split('\n').at(-1) ?? '';
      // a recorder goes on until it is stopped; FFmpeg ends with 0 although its source is gone
      if (!stopped) broken ??= last === '' ? `it ended with status ${code}` : last;
      resolve();
    });
  });
  return {
    program,
    samples: child.stdout as AsyncIterable<Uint8Array>,
    async fault() {
      await ended;
      return broken;
    },
    stop() {
      stopped = true;
      child.kill('SIGTERM');
    },
  };
}
