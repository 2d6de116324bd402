import { expect, it } from 'vitest';
import { seededIntegers, wave } from '../../../test/faults/buildWave.ts';
import { openRecording } from './openRecording.ts';
import type { ByteSource, Recording } from './recording.ts';

const FRAMES = 4 * 65_536;

/** A source that fills the caller's memory, and only when told to. */
function slowSource(samples: readonly number[]): { source: ByteSource; deliver: () => void } {
  const bytes = wave(samples, 24);
  const waiting: (() => void)[] = [];
  let slow = false;
  return {
    source: {
      name: 'slow.wav',
      size: bytes.length,
      async read(offset, length, into) {
        if (slow && into !== undefined) await new Promise<void>((resolve) => waiting.push(resolve));
        if (into !== undefined) slow = true;
        const piece = bytes.subarray(offset, offset + length);
        if (into === undefined) return piece.slice();
        into.set(piece);
        return into.subarray(0, piece.length);
      },
    },
    deliver: () => {
      for (const resolve of waiting.splice(0)) resolve();
    },
  };
}

async function firstOf(recording: Recording): Promise<number[]> {
  for await (const { left } of recording.blocks()) return [...left.subarray(0, 1000)];
  return [];
}

it('a reader that stops early leaves the piece on its way its own memory', async () => {
  const samples = seededIntegers(2 * FRAMES, 24, 5);
  const { source, deliver } = slowSource(samples);
  const first = samples.filter((_, i) => i % 2 === 0).slice(0, 1000);
  const recording = await openRecording(source);
  expect((await firstOf(recording)).map((v) => Math.round(v * 2 ** 23))).toEqual(first.map((v) => v + 0));

  const other = seededIntegers(2 * FRAMES, 24, 6);
  const bytes = wave(other, 24);
  const quick: ByteSource = {
    name: 'quick.wav',
    size: bytes.length,
    async read(offset, length, into) {
      const piece = bytes.subarray(offset, offset + length);
      if (into === undefined) return piece.slice();
      into.set(piece);
      // what the first reader no longer waits for comes in now
      deliver();
      await new Promise((resolve) => setTimeout(resolve, 0));
      return into.subarray(0, piece.length);
    },
  };
  let at = 0;
  for await (const { left, frames } of (await openRecording(quick)).blocks()) {
    for (let i = 0; i < frames; i += 997) expect(Math.round(left[i] * 2 ** 23)).toBe(other[2 * (at + i)] + 0);
    at += frames;
  }
  expect(at).toBe(FRAMES);
});
