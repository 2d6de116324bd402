/** A recording that is still being written while it is measured: what it held at the start counts, for both threads and the fingerprint. */

import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, readdirSync, readlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { buildCliIfStale } from '../../scripts/build-cli.mjs';
import { wavFrames, wavHeader } from '../../test/faults/sideBytes.ts';
import { root } from '../../test/screens/bench.ts';
import type { SideDocument } from '../core/advise/document.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';

const RATE = 44_100;
const HELD_S = 100;
/** longer than any margin that a reader could have read past the end it saw */
const ADDED_S = 300;
const folder = scratchFolder();
beforeAll(() => buildCliIfStale());
afterAll(() => folder.remove());

/** 1 kHz left, right, and a long lateral tone, in a hiss; its header left open, as a recorder that runs has it. */
function held(): Uint8Array {
  const frames = HELD_S * RATE;
  const samples = new Float64Array(2 * frames);
  let seed = 7;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed / 2 ** 32 - 0.5) * 1e-3;
  };
  for (let n = 0; n < frames; n++) {
    const t = n / RATE;
    const place = t < 1 ? null : t < 6 ? [1, 0.03] : t < 7 ? null : t < 12 ? [0.02, 1] : t < 13 ? null : [0.7, 0.7];
    const wave = 0.4 * Math.sin(2 * Math.PI * 1000 * t);
    samples[2 * n] = (place?.[0] ?? 0) * wave + hiss();
    samples[2 * n + 1] = (place?.[1] ?? 0) * wave + hiss();
  }
  const bytes = wavFrames(wavHeader(RATE, frames), samples);
  new DataView(bytes.buffer).setUint32(40, 0xffff_ffff, true);
  return bytes;
}

it('is measured to the length seen at its start', { timeout: 240_000 }, async () => {
  const [still, grows] = ['still.wav', 'grows.wav'].map((name) => join(folder.path, name));
  const bytes = held();
  writeFileSync(still, bytes);
  writeFileSync(grows, bytes);
  const before = await measured(still);
  const after = await measured(grows, async (pid) => {
    while (!hasOpen(pid, grows)) await new Promise((resolve) => setTimeout(resolve, 5));
    appendFileSync(grows, Buffer.alloc(ADDED_S * RATE * 6, 0x11));
  });
  const codes = ({ problems }: SideDocument): string[] => problems.map(({ code }) => code);
  expect(codes(after)).toEqual([...codes(before), 'still-growing']);
  expect(after.capture).toEqual({ ...before.capture, file: 'grows.wav', path: grows });
  expect(after.capture.sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
  expect(after.findings).toEqual(before.findings);
});

/** Whether a program has a file open; where the system does not tell, it is taken for so. */
function hasOpen(pid: number, path: string): boolean {
  const handles = `/proc/${pid}/fd`;
  if (!existsSync(handles)) return true;
  return readdirSync(handles).some((name) => {
    try {
      return readlinkSync(join(handles, name)) === path;
    } catch {
      return false;
    }
  });
}

async function measured(path: string, meanwhile?: (pid: number) => Promise<void>): Promise<SideDocument> {
  const child = spawn(process.execPath, [join(root, 'dist', 'cli.mjs'), 'measure', path, '--json'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (text) => {
    said += text;
  });
  const ended = new Promise((resolve) => child.on('close', resolve));
  await meanwhile?.(child.pid as number);
  expect(await ended).toBe(0);
  return JSON.parse(said);
}
