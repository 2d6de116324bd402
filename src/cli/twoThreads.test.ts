import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { buildCliIfStale } from '../../scripts/build-cli.mjs';
import { openRecording } from '../core/capture/openRecording.ts';
import { examineRecording } from '../core/side/examineSide.ts';
import { openFileSource } from './fileSource.ts';
import { twoThreads } from './twoThreads.ts';

const RATE = 44_100;
const code = pathToFileURL(join(import.meta.dirname, '..', '..', 'dist', 'sideThread.mjs'));
const folder = mkdtempSync(join(tmpdir(), 'platterside-threads-'));
const file = join(folder, 'side.wav');

/** 16 bits: 1 kHz left, then right, then 3150 Hz in both, 3 s each with half a second between. */
function writeSide(): void {
  const frames = Math.round(10.5 * RATE);
  const bytes = Buffer.alloc(44 + 4 * frames);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(bytes.length - 8, 4);
  bytes.write('WAVEfmt ', 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(2, 22);
  bytes.writeUInt32LE(RATE, 24);
  bytes.writeUInt32LE(4 * RATE, 28);
  bytes.writeUInt16LE(4, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(4 * frames, 40);
  let seed = 11;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed / 2 ** 32 - 0.5) * 12;
  };
  for (let n = 0; n < frames; n++) {
    const band = Math.floor(n / (3.5 * RATE));
    const sounds = n - band * 3.5 * RATE < 3 * RATE;
    const hz = band === 2 ? 3150 : 1000;
    const tone = sounds ? 9000 * Math.sin((2 * Math.PI * hz * n) / RATE) : 0;
    bytes.writeInt16LE(Math.round((band === 1 ? 0.04 : 1) * tone + hiss()), 44 + 4 * n);
    bytes.writeInt16LE(Math.round((band === 0 ? 0.05 : 1) * tone + hiss()), 46 + 4 * n);
  }
  writeFileSync(file, bytes);
}

beforeAll(async () => {
  await buildCliIfStale();
  writeSide();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('two threads', () => {
  it('tell what one thread tells', async () => {
    const source = await openFileSource(file);
    const recording = await openRecording(source);
    const alone = await examineRecording(recording);
    const threads = twoThreads(source.file, recording, code, 0);
    expect(threads).not.toBeNull();
    const stages = new Map<string, number>();
    const together = await examineRecording(recording, {
      passes: threads ?? undefined,
      onProgress: ({ stage, fraction }) => stages.set(stage, fraction),
    });
    await threads?.end();
    await source.close();
    expect(together).toEqual(alone);
    expect(alone.document.bands.filter((band) => band.signal === 'tone')).toHaveLength(3);
    expect(Object.fromEntries(stages)).toEqual({ 'finding-bands': 1, measuring: 1 });
  });

  it('are one where the recording is short', async () => {
    const source = await openFileSource(file);
    expect(twoThreads(source.file, await openRecording(source), code)).toBeNull();
    await source.close();
  });

  it('say in one sentence what the second one could not do', async () => {
    const source = await openFileSource(file);
    const recording = await openRecording(source);
    const threads = twoThreads(source.file, recording, code, 0);
    truncateSync(file, 200_000);
    await expect(examineRecording(recording, { passes: threads ?? undefined })).rejects.toThrow(
      /^side\.wav changed while it was being read \(it (ended at byte \d+|became shorter)/,
    );
    await threads?.end();
    await source.close();
  });
});
