import { expect, test, vi } from 'vitest';
import { fileSource } from './fileSource.ts';

const bytes = Uint8Array.from({ length: 1_300_000 }, (_, i) => (i * 7919) >> 8);
const same = (one: Uint8Array, other: Uint8Array): boolean => Buffer.from(one).equals(other);
const made = (): File => new File([bytes], 'side.wav');

test('gives the bytes asked for, in order, from elsewhere, past the end and two questions at once', async () => {
  const file = made();
  const slice = vi.spyOn(file, 'slice');
  const source = fileSource(file);
  const memory = new Uint8Array(700_000);
  const first = await source.read(44, 600_000, memory);
  expect(first.buffer).toBe(memory.buffer);
  expect(same(first, bytes.subarray(44, 600_044))).toBe(true);
  slice.mockClear();
  expect(same(await source.read(600_044, 600_000), bytes.subarray(600_044, 1_200_044))).toBe(true);
  // it went on where it was: nothing was asked for anew
  expect(slice).not.toHaveBeenCalled();
  const [back, end] = await Promise.all([source.read(10, 20), source.read(1_299_990, 500)]);
  expect(same(back, bytes.subarray(10, 30))).toBe(true);
  expect(same(end, bytes.subarray(1_299_990))).toBe(true);
  expect(await source.read(1_300_000, 10)).toHaveLength(0);
});

test('a file that is gone says so, and each later question too', async () => {
  const file = made();
  vi.spyOn(file, 'slice').mockImplementation(() => {
    const stream = (): ReadableStream<Uint8Array> =>
      new ReadableStream({ pull: (to) => to.error(new DOMException('gone', 'NotReadableError')) });
    return Object.assign(new Blob(), { stream });
  });
  const source = fileSource(file);
  for (let twice = 0; twice < 2; twice++)
    await expect(source.read(0, 100)).rejects.toThrow(expect.objectContaining({ code: 'changed-while-read' }));
});
