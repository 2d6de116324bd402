/** A recording longer than memory should ever see: made on the fly, opened, its ends read right. */
import { expect, it } from 'vitest';
import { openRecording } from '../../src/core/capture/openRecording.ts';
import type { ByteSource } from '../../src/core/capture/recording.ts';
import { ds64, formatChunk, joined, text } from './buildWave.ts';

const FRAMES = 400_000_000;
const DATA_BYTES = FRAMES * 6;

/** 24-bit value of one channel of one frame: a hash, so that any stretch can be made without the others. */
function sampleAt(frame: number, channel: number): number {
  const x = Math.imul(frame * 2 + channel + 1, 0x9e3779b1);
  return (x ^ (x >>> 15)) >> 8;
}

function madeUp(): { source: ByteSource; largest: () => number; read: () => number } {
  const dataHead = joined(text('data'), Uint8Array.of(0xff, 0xff, 0xff, 0xff));
  const head = joined(
    text('RF64'),
    Uint8Array.of(0xff, 0xff, 0xff, 0xff),
    text('WAVE'),
    ds64(DATA_BYTES, FRAMES),
    formatChunk({ rateHz: 96_000 }),
    dataHead,
  );
  const size = head.length + DATA_BYTES;
  let largest = 0;
  let total = 0;
  const byteAt = (at: number): number => {
    if (at < head.length) return head[at]!;
    const offset = at - head.length;
    const frame = Math.floor(offset / 6);
    const inFrame = offset - frame * 6;
    return (sampleAt(frame, inFrame < 3 ? 0 : 1) >> (8 * (inFrame % 3))) & 0xff;
  };
  const source: ByteSource = {
    name: 'long.wav',
    size,
    read: async (offset, length, into) => {
      largest = Math.max(largest, length);
      total += length;
      const bytes = into ?? new Uint8Array(length);
      for (let i = 0; i < length; i++) bytes[i] = byteAt(offset + i);
      return bytes.subarray(0, length);
    },
  };
  return { source, largest: () => largest, read: () => total };
}

it('2.4 GB of RF64: opened from its first bytes, read at both ends and in the middle, in pieces of at most 2 MiB', async () => {
  const { source, largest, read } = madeUp();
  expect(source.size).toBeGreaterThan(2 ** 31);
  const recording = await openRecording(source);
  expect(recording.problems).toEqual([]);
  expect(recording.format).toMatchObject({ container: 'rf64', frames: FRAMES, sampleRateHz: 96_000, bitDepth: 24 });
  expect(read()).toBeLessThan(1_000);
  for (const fromFrame of [0, 199_999_999, FRAMES - 100_000]) {
    let at = fromFrame;
    for await (const block of recording.blocks({ fromFrame, toFrame: fromFrame + 100_000 })) {
      expect(block.startFrame).toBe(at);
      for (let i = 0; i < block.frames; i++, at++) {
        if (block.left[i] !== sampleAt(at, 0) / 2 ** 23 || block.right[i] !== sampleAt(at, 1) / 2 ** 23) {
          throw new Error(`frame ${at} reads ${block.left[i]}, ${block.right[i]}`);
        }
      }
    }
    expect(at).toBe(fromFrame + 100_000);
  }
  expect(largest()).toBeLessThanOrEqual(2 ** 21);
  expect(read()).toBeLessThan(3 * 100_000 * 6 + 1_000);
});

it('memory does not grow along the way: 500 blocks in the same two arrays', async () => {
  const { source } = madeUp();
  const cheap: ByteSource = {
    ...source,
    read: async (offset, length, into) => (offset < 1_000 ? source.read(offset, length) : into!.subarray(0, length)),
  };
  const recording = await openRecording(cheap);
  const arrays = new Set<ArrayBufferLike>();
  let blocks = 0;
  for await (const { left, right } of recording.blocks({ fromFrame: 1_000, toFrame: 1_000 + 500 * 65_536 })) {
    arrays.add(left.buffer).add(right.buffer);
    blocks++;
  }
  expect(blocks).toBe(500);
  expect(arrays.size).toBe(2);
});
