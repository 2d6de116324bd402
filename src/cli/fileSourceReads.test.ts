import { mkdirSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { openFileSource } from './fileSource.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const path = join(folder.path, 'x.wav');

it('reads what is asked for, and no further than its end, into a buffer where one is given', async () => {
  writeFileSync(path, Uint8Array.of(1, 2, 3, 4, 5));
  const source = await openFileSource(path);
  expect([source.name, source.size, source.file.name, source.file.size]).toEqual(['x.wav', 5, 'x.wav', 5]);
  expect(await source.read(1, 3)).toEqual(Uint8Array.of(2, 3, 4));
  expect(await source.read(3, 9)).toEqual(Uint8Array.of(4, 5));
  for (const [offset, length] of [
    [5, 1],
    [9, 4],
    [0, 0],
  ])
    expect(await source.read(offset, length)).toHaveLength(0);
  const into = new Uint8Array(8);
  const read = await source.read(0, 4, into);
  expect(read).toEqual(Uint8Array.of(1, 2, 3, 4));
  expect(read.buffer).toBe(into.buffer);
  expect([...into]).toEqual([1, 2, 3, 4, 0, 0, 0, 0]);
  expect(source.sinceOpened()).toBe('same');
  unlinkSync(path);
  expect(() => source.sinceOpened()).toThrow('another file, or none, is in its place');
  await source.close();
});

it('what is no file, or not there, is the system’s own error', async () => {
  mkdirSync(join(folder.path, 'folder'));
  await expect(openFileSource(join(folder.path, 'folder'))).rejects.toMatchObject({ code: 'EISDIR' });
  await expect(openFileSource('/dev/null')).rejects.toMatchObject({ code: 'ENOTFILE' });
  await expect(openFileSource(join(folder.path, 'none'))).rejects.toMatchObject({ code: 'ENOENT' });
});
