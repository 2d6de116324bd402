import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { seededIntegers, text } from '../../../test/faults/buildWave.ts';
import { bytesOf } from './bytesOf.ts';
import { fingerprint } from './fingerprint.ts';

it('gives the values for abc and for nothing that FIPS 180-4 is known by (from memory), and Node’s own', async () => {
  expect(await fingerprint(bytesOf(text('abc'), 'abc'))).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  );
  expect(await fingerprint(bytesOf(new Uint8Array(0), 'nothing'))).toBe(
    'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  );
  const noise = Uint8Array.from(seededIntegers(200_003, 8, 9));
  expect(await fingerprint(bytesOf(noise, 'noise'))).toBe(createHash('sha256').update(noise).digest('hex'));
});

it('does not depend on how the bytes arrive, and tells how far it is', async () => {
  const bytes = Uint8Array.from(seededIntegers(2_500_000, 8, 4));
  const shares: number[] = [];
  const hasty = {
    name: 'hasty',
    size: bytes.length,
    read: async (offset: number, length: number) => bytes.subarray(offset, offset + Math.min(length, 70_001)),
  };
  const expected = createHash('sha256').update(bytes).digest('hex');
  expect(await fingerprint(bytesOf(bytes, 'whole'), (share) => shares.push(share))).toBe(expected);
  expect(await fingerprint(hasty)).toBe(expected);
  expect(shares).toHaveLength(3);
  expect(shares.at(-1)).toBe(1);
});

it('says so when the file gives out', async () => {
  const shrunk = { name: 'shrunk.wav', size: 100, read: async () => new Uint8Array(0) };
  await expect(fingerprint(shrunk)).rejects.toThrow('shrunk.wav changed while it was being read (it ended at byte 0');
});
