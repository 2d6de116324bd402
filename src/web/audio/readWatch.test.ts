import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { watchReads } from './readWatch.ts';

const bytes = Uint8Array.from({ length: 50_000 }, (_, n) => (n * 7 + (n >> 8)) & 255);
const digest = createHash('sha256').update(bytes).digest('hex');

function countedSource() {
  const counted = { name: 'x', size: bytes.length, read: 0 };
  return {
    counted,
    source: {
      name: 'x',
      size: bytes.length,
      read: async (offset: number, length: number) => {
        const part = bytes.slice(offset, offset + length);
        counted.read += part.length;
        return part;
      },
    },
  };
}

test('the fingerprint is that of the whole file, taken while it is read once', async () => {
  const { source, counted } = countedSource();
  const watch = await watchReads(source);
  await watch.read(0, 12);
  await watch.read(20, 24);
  for (let at = 60; at < bytes.length; at += 4096) await watch.read(at, 4096);
  expect(await watch.fingerprint()).toBe(digest);
  // what lay between the pieces of the header was fetched once, nothing a second time
  expect(counted.read).toBe(bytes.length);
});

test('what was not read, or read in any order, is fetched in the end', async () => {
  const { source } = countedSource();
  const watch = await watchReads(source);
  await watch.read(30_000, 1000);
  await watch.read(0, 100);
  await watch.read(0, 100);
  expect(watch.position()).toBe(31_000);
  watch.rewind();
  expect(watch.position()).toBe(0);
  expect(await watch.fingerprint()).toBe(digest);
});

test('a file that became shorter is an error, not a fingerprint', async () => {
  const { source } = countedSource();
  const watch = await watchReads({ ...source, size: bytes.length + 10 });
  await expect(watch.fingerprint()).rejects.toThrow(/shorter/);
});
