import { execFileSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import { readAll } from '../../test/faults/readAll.ts';
import { openRecording } from '../core/capture/openRecording.ts';
import { fileSource } from '../web/fileSource.ts';
import { openFileSource } from './fileSource.ts';

const samples = seededIntegers(300_000, 24, 6);
let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'platterside-'));
  await writeFile(join(folder, 'side.wav'), wave(samples, 24));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

it('a file on disk reads as it was written, several readers at once', async () => {
  const source = await openFileSource(join(folder, 'side.wav'));
  expect(source).toMatchObject({ name: 'side.wav', size: 900_044 });
  const recording = await openRecording(source);
  const [whole, part] = await Promise.all([
    readAll(recording, 2 ** 23),
    readAll(recording, 2 ** 23, { fromFrame: 70_000, toFrame: 140_000 }),
  ]);
  expect(whole).toEqual(samples);
  expect(part).toEqual(samples.slice(140_000, 280_000));
  await source.close();
  await expect(readAll(recording, 1)).rejects.toThrow(/^side\.wav could not be read at byte 44: /);
});

it('a pipe is refused at once, without waiting for somebody to write to it', async () => {
  execFileSync('mkfifo', [join(folder, 'pipe.wav')]);
  await expect(openFileSource(join(folder, 'pipe.wav'))).rejects.toMatchObject({ code: 'ENOTFILE' });
});

it('a folder and a name that is not there are errors with a code', async () => {
  await expect(openFileSource(folder)).rejects.toMatchObject({ code: 'EISDIR' });
  await expect(openFileSource(join(folder, 'none.wav'))).rejects.toMatchObject({ code: 'ENOENT' });
});

it('a file chosen in a page reads the same', async () => {
  const recording = await openRecording(
    fileSource(new File([wave(samples, 24) as Uint8Array<ArrayBuffer>], 'picked.wav')),
  );
  expect(recording.format.file).toBe('picked.wav');
  expect(await readAll(recording, 2 ** 23)).toEqual(samples);
});
