/** Streams that fill memory handed to them, and what is done about those that fall silent. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { fileSource } from './fileSource.ts';

const SIZE = 5_000_000;
/** as much as a stream fills before it answers */
const LENT = 2 ** 19;
const bytes = Uint8Array.from({ length: SIZE }, (_, i) => (i * 7919) >> 8);
const same = (one: Uint8Array, other: Uint8Array): boolean => Buffer.from(one).equals(other);

/** A file whose streams fill memory handed to them, a part of it at a time, and say nothing more at the bytes of `silentAt`, each once. */
function made(silentAt: readonly number[] = []) {
  const file = new File([bytes], 'side.wav');
  const silent = new Set(silentAt);
  const opened: number[] = [];
  /** pieces of memory of the stream's own */
  let plain = 0;
  vi.spyOn(file, 'slice').mockImplementation((start = 0) => {
    opened.push(start);
    let at = start;
    const stream = new ReadableStream({
      type: 'bytes',
      pull(to) {
        if (to.byobRequest?.view == null) {
          plain += 1;
          const piece = bytes.slice(at, at + 300_000);
          at += piece.length;
          if (piece.length === 0) to.close();
          else to.enqueue(piece);
          return undefined;
        }
        const next = [...silent].find((one) => one >= at && one < at + 300_000);
        if (next === at) {
          silent.delete(next);
          return new Promise<void>(() => undefined);
        }
        const { view } = to.byobRequest;
        const many = Math.min(300_000, view.byteLength, SIZE - at, (next ?? SIZE) - at);
        const memory = new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
        memory.set(bytes.subarray(at, at + many));
        at += many;
        if (many === 0) to.close();
        to.byobRequest.respond(many);
        return undefined;
      },
    });
    return Object.assign(new Blob(), { stream: () => stream as ReadableStream<Uint8Array<ArrayBuffer>> });
  });
  return { file, opened, plainPieces: () => plain };
}

async function readAll(file: File): Promise<Uint8Array> {
  const source = fileSource(file);
  const all = new Uint8Array(SIZE);
  for (let at = 0; at < SIZE; ) {
    const piece = await source.read(at, 700_001);
    if (piece.length === 0) break;
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

test('a file in order is one stream into memory of ours: none of its pieces is new', async () => {
  const { file, opened, plainPieces } = made();
  expect(same(await readAll(file), bytes)).toBe(true);
  expect(opened).toEqual([0]);
  expect(plainPieces()).toBe(0);
});

describe('a stream that never answers', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  test('is left after half a second, and another goes on from the byte after those it gave', async () => {
    const { file, opened, plainPieces } = made([1_234_567]);
    const all = readAll(file);
    await vi.advanceTimersByTimeAsync(499);
    expect(opened).toEqual([0]);
    await vi.advanceTimersByTimeAsync(2);
    expect(opened).toEqual([0, 2 * LENT]);
    expect(same(await all, bytes)).toBe(true);
    expect(plainPieces()).toBe(0);
  });

  test('three times: the rest comes from streams of their own memory, elsewhere too', async () => {
    const { file, opened, plainPieces } = made([0, 2_000_000, 2_300_000, 4_000_000]);
    const all = readAll(file);
    await vi.advanceTimersByTimeAsync(2000);
    expect(same(await all, bytes)).toBe(true);
    expect(opened).toEqual([0, 0, 3 * LENT, 4 * LENT]);
    expect(plainPieces()).toBeGreaterThan(8);
  });

  test('at the same byte again and again does not hold it up for ever', async () => {
    const file = new File([bytes], 'side.wav');
    const slice = file.slice.bind(file);
    let deaf = 0;
    vi.spyOn(file, 'slice').mockImplementation((start) => {
      const stream = slice(start).stream();
      const getReader = stream.getReader.bind(stream) as (options?: ReadableStreamGetReaderOptions) => unknown;
      const own = (options?: ReadableStreamGetReaderOptions): unknown => {
        if (options?.mode !== 'byob') return getReader();
        deaf += 1;
        return { read: () => new Promise(() => undefined), cancel: () => Promise.reject(new Error('deaf')) };
      };
      return Object.assign(new Blob(), { stream: () => Object.assign(stream, { getReader: own }) });
    });
    const all = readAll(file);
    await vi.advanceTimersByTimeAsync(1600);
    vi.useRealTimers();
    expect(same(await all, bytes)).toBe(true);
    expect(deaf).toBe(3);
  });
});

test('a browser that cannot fill memory of ours is read all the same', async () => {
  const file = new File([bytes], 'side.wav');
  const slice = file.slice.bind(file);
  vi.spyOn(file, 'slice').mockImplementation((start) => {
    const reader = slice(start).stream().getReader();
    const pull = async (to: ReadableStreamDefaultController<Uint8Array>): Promise<void> => {
      const { done, value } = await reader.read();
      if (done) to.close();
      else to.enqueue(value);
    };
    return Object.assign(new Blob(), { stream: () => new ReadableStream({ pull }) });
  });
  expect(same(await readAll(file), bytes)).toBe(true);
});
