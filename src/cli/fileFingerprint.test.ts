import { createHash } from 'node:crypto';
import { closeSync, openSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { fileFingerprint } from './fileFingerprint.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const path = join(folder.path, 'x');
const bytes = Uint8Array.from({ length: 2_500_000 }, (_, i) => (i * 7 + (i >> 8)) & 255);
writeFileSync(path, bytes);

it.each([0, 1, 1 << 20, (1 << 20) + 1, bytes.length])('is of the first %i bytes, no more', async (size) => {
  const fd = openSync(path, 'r');
  const sha256 = createHash('sha256').update(bytes.subarray(0, size)).digest('hex');
  expect(await fileFingerprint({ fd, name: 'x', size })).toBe(sha256);
  closeSync(fd);
});

it('of a file that has become shorter, or cannot be read, there is none', async () => {
  const fd = openSync(path, 'r');
  await expect(fileFingerprint({ fd, name: 'x', size: bytes.length + 1 })).rejects.toThrow(
    `it ended at byte ${bytes.length}, where ${bytes.length + 1} bytes were expected`,
  );
  closeSync(fd);
  const handle = openSync(folder.path, 'r');
  await expect(fileFingerprint({ fd: handle, name: 'x', size: 1 })).rejects.toThrow(/EISDIR/);
  closeSync(handle);
});
