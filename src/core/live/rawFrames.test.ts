import { expect, it } from 'vitest';
import { RawFrames } from './rawFrames.ts';

it('makes the same frames however the bytes are cut', () => {
  for (const [code, size, scale] of [
    ['int16', 2, 2 ** 15],
    ['int24', 3, 2 ** 23],
    ['int32', 4, 2 ** 31],
  ] as const) {
    const bytes = Uint8Array.from({ length: 2 * size * 100 + 1 }, (_, i) => (i * 37 + 11) % 256);
    const heard: number[] = [];
    const raw = new RawFrames(code, 2);
    for (let at = 0, cut = 1; at < bytes.length; at += cut, cut = (cut % 17) + 1) {
      const { left, right, frames } = raw.push(bytes.subarray(at, Math.min(bytes.length, at + cut)));
      for (let i = 0; i < frames; i++) heard.push(left[i] * scale, right[i] * scale);
    }
    const view = Buffer.from(bytes);
    const expected = Array.from({ length: 200 }, (_, i) => view.readIntLE(i * size, size));
    expect(heard, code).toEqual(expected);
    expect(raw.leftOver).toBe(1);
  }
});

it('puts one channel into both, and takes the first two of more', () => {
  const bytes = new Uint8Array(Int16Array.from([1, 2, 3, 4, 5, 6]).buffer);
  const of = (channels: number) => new RawFrames('int16', channels).push(bytes);
  expect([...of(1).right].map((x) => x * 2 ** 15)).toEqual([1, 2, 3, 4, 5, 6]);
  expect([...of(3).left, ...of(3).right].map((x) => x * 2 ** 15)).toEqual([1, 4, 2, 5]);
});
