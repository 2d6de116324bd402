import { expect, test, vi } from 'vitest';
import { fileSource } from './fileSource.ts';

const bytes = Uint8Array.from({ length: 5_300_000 }, (_, i) => (i * 7919) >> 8);
const same = (one: Uint8Array, other: Uint8Array): boolean => Buffer.from(one).equals(other);
const made = (): File => new File([bytes], 'side.wav');

test('gives the bytes asked for, in order, from elsewhere, past the end and two questions at once', async () => {
  const source = fileSource(made());
  expect(same(await source.read(44, 600_000), bytes.subarray(44, 600_044))).toBe(true);
  expect(same(await source.read(600_044, 4_000_000), bytes.subarray(600_044, 4_600_044))).toBe(true);
  const [back, end] = await Promise.all([source.read(10, 20), source.read(5_299_990, 500)]);
  expect(same(back, bytes.subarray(10, 30))).toBe(true);
  expect(same(end, bytes.subarray(5_299_990))).toBe(true);
  expect(await source.read(5_300_000, 10)).toHaveLength(0);
});

test('a file that is gone says so, and each later question too', async () => {
  const file = made();
  vi.spyOn(file, 'slice').mockImplementation(() =>
    Object.assign(new Blob(), { arrayBuffer: () => Promise.reject(new DOMException('gone', 'NotReadableError')) }),
  );
  const source = fileSource(file);
  for (let twice = 0; twice < 2; twice++)
    await expect(source.read(0, 100)).rejects.toThrow(expect.objectContaining({ code: 'changed-while-read' }));
});
