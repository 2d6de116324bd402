import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { be, coded, crc, flac, flacFrames, flacHead } from '../../../test/faults/buildFlac.ts';
import { joined, seededIntegers, text } from '../../../test/faults/buildWave.ts';
import { readAll } from '../../../test/faults/readAll.ts';
import { bytesOf } from './bytesOf.ts';
import { CaptureError } from './captureError.ts';
import { crc8, crc16 } from './flacChecksums.ts';
import { openRecording } from './openRecording.ts';
import type { ByteSource, Recording } from './recording.ts';

const open = (bytes: Uint8Array): Promise<Recording> => openRecording(bytesOf(bytes, 'side.flac'));
const codes = (recording: Recording): string[] =>
  recording.problems.map(({ code }) => code).filter((code) => code !== 'too-short');

const SAMPLES = seededIntegers(10_000, 24, 42);

describe('exact integers', () => {
  it.each([16, 24])('%s bits, extremes included', async (bits) => {
    const extremes = [-(2 ** (bits - 1)), 2 ** (bits - 1) - 1, 2 ** (bits - 1) - 2, 1 - 2 ** (bits - 1), -1, 0, 1, 0];
    const samples = [...extremes, ...seededIntegers(6_000, bits, bits)];
    const recording = await open(flac(samples, { bits }));
    expect(recording.format).toMatchObject({ container: 'flac', bitDepth: bits, frames: samples.length / 2 });
    expect(await readAll(recording, 2 ** (bits - 1))).toEqual(samples);
    // the pass over everything has compared the checksum too
    expect(codes(recording)).toEqual([]);
  });

  it.each([44_100, 88_200, 192_000])('%s Hz', async (rateHz) => {
    const recording = await open(flac(SAMPLES.slice(0, 600), { rateHz }));
    expect(recording.format.sampleRateHz).toBe(rateHz);
    expect(await readAll(recording, 2 ** 23)).toEqual(SAMPLES.slice(0, 600));
  });

  it('frames that leave rate and depth to the header of the stream, in blocks of any size', async () => {
    for (const blockSize of [16, 33, 64, 4_096]) {
      for (const terse of [false, true]) {
        const recording = await open(flac(SAMPLES.slice(0, 1_200), { blockSize, terse, rateHz: 44_100 }));
        expect(await readAll(recording, 2 ** 23)).toEqual(SAMPLES.slice(0, 1_200));
        expect(codes(recording)).toEqual([]);
      }
    }
  });

  it('one channel on both sides, three give the first two', async () => {
    const one = await open(flac(SAMPLES.slice(0, 500), { channels: 1 }));
    expect(await readAll(one, 2 ** 23)).toEqual(SAMPLES.slice(0, 500).flatMap((n) => [n, n]));
    expect(codes(one)).toEqual(['mono']);
    const three = await open(flac(SAMPLES.slice(0, 600), { channels: 3 }));
    expect(await readAll(three, 2 ** 23)).toEqual(SAMPLES.slice(0, 600).filter((_, i) => i % 3 < 2));
    expect(codes(three)).toEqual(['extra-channels']);
  });

  it('a stretch from the middle of a long stream, without reading what lies before it', async () => {
    const samples = seededIntegers(200_000, 16, 8);
    const bytes = flac(samples, { bits: 16, blockSize: 64 });
    const reads: number[] = [];
    const source: ByteSource = {
      name: 'long.flac',
      size: bytes.length,
      read: async (offset, length) => {
        reads.push(length);
        return bytes.subarray(offset, offset + length);
      },
    };
    const recording = await openRecording(source);
    for (const range of [
      { fromFrame: 0, toFrame: 10 },
      { fromFrame: 63, toFrame: 65 },
      { fromFrame: 50_001, toFrame: 50_300 },
      { fromFrame: 99_990, toFrame: 100_000 },
      { fromFrame: 70_000, toFrame: 70_000 },
    ]) {
      expect(await readAll(recording, 2 ** 15, range)).toEqual(samples.slice(2 * range.fromFrame, 2 * range.toFrame));
    }
    expect(reads.length).toBeLessThan(200);
  });
});

describe('what stands around the stream', () => {
  it('other metadata, an ID3 tag in front and one behind', async () => {
    const metadata = [
      [4, text('a comment')],
      [1, new Uint8Array(3_000)],
      [6, new Uint8Array(70_000).fill(0xff)],
    ] as const;
    const id3 = joined(text('ID3'), Uint8Array.of(4, 0, 0, 0, 0, 2, 1), new Uint8Array(257));
    const tail = joined(text('TAG'), new Uint8Array(125));
    const recording = await open(joined(id3, flac(SAMPLES, { metadata }), tail));
    expect(await readAll(recording, 2 ** 23)).toEqual(SAMPLES);
    expect(codes(recording)).toEqual([]);
  });

  it('a piece cut out of a longer stream counts from its own beginning', async () => {
    const bytes = joined(flacHead(SAMPLES), ...flacFrames(SAMPLES, { firstNumber: 5_000 }));
    const recording = await open(bytes);
    expect(recording.format.frames).toBe(5_000);
    expect(await readAll(recording, 2 ** 23)).toEqual(SAMPLES);
  });

  it('a length of 0 is read to the end, a longer file than promised whole', async () => {
    const open0 = await open(flac(SAMPLES, { promised: 0 }));
    expect(codes(open0)).toEqual(['not-closed']);
    expect(await readAll(open0, 2 ** 23)).toEqual(SAMPLES);
    const longer = await open(flac(SAMPLES, { promised: 100 }));
    expect(codes(longer)).toEqual(['longer-than-header']);
    expect(longer.format.frames).toBe(5_000);
  });
});

describe('damage', () => {
  const head = flacHead(SAMPLES);
  const frames = flacFrames(SAMPLES);

  it('a truncated file is cut short at its last sound frame, wherever it was cut', async () => {
    const whole = joined(head, ...frames);
    const firstTen = joined(head, ...frames.slice(0, 10)).length;
    for (const extra of [0, 1, 5, 700, frames[10]!.length - 1]) {
      const recording = await open(whole.subarray(0, firstTen + extra));
      expect(codes(recording)).toEqual(['cut-short']);
      expect(recording.format.frames).toBe(2_560);
      expect(await readAll(recording, 2 ** 23)).toEqual(SAMPLES.slice(0, 5_120));
    }
  });

  it('a damaged or missing frame becomes silence of its length, and the rest stays in its place', async () => {
    const hurt = frames[7]!.slice();
    hurt[900]! ^= 0x10;
    const missing = (from: number, to: number) =>
      SAMPLES.map((n, i) => (Math.floor(i / 2) >= from * 256 && Math.floor(i / 2) < to * 256 ? 0 : n));
    const bitFlip = await open(joined(head, ...frames.slice(0, 7), hurt, ...frames.slice(8)));
    expect(await readAll(bitFlip, 2 ** 23)).toEqual(missing(7, 8));
    expect(codes(bitFlip)).toEqual(['damaged-frames']);
    expect(bitFlip.problems.at(-1)).toMatchObject({ startS: (7 * 256) / 48_000, endS: (8 * 256) / 48_000 });
    const gap = await open(joined(head, ...frames.slice(0, 7), ...frames.slice(9)));
    const read = await readAll(gap, 2 ** 23);
    // the frame before the gap cannot be told from a damaged one, for its end is not marked
    expect(read.slice(0, 6 * 512)).toEqual(SAMPLES.slice(0, 6 * 512));
    expect(read.slice(9 * 512)).toEqual(SAMPLES.slice(9 * 512));
    expect(codes(gap)).toEqual(['damaged-frames']);
    // a second pass tells the same once
    expect(await readAll(gap, 2 ** 23)).toEqual(read);
    expect(codes(gap)).toEqual(['damaged-frames']);
  });

  it('samples that do not match the header’s checksum are told after the first whole pass', async () => {
    const recording = await open(flac(SAMPLES, { md5: createHash('md5').update('other').digest() }));
    expect(codes(recording)).toEqual([]);
    await readAll(recording, 1);
    expect(codes(recording)).toEqual(['checksum-differs']);
    await readAll(recording, 1);
    expect(codes(recording)).toEqual(['checksum-differs']);
    const unwritten = await open(flac(SAMPLES, { md5: new Uint8Array(16) }));
    await readAll(unwritten, 1);
    expect(codes(unwritten)).toEqual([]);
  });
});

describe('lengths that the bytes cannot hold', () => {
  it('a frame number of hours in a file of two frames is not believed', async () => {
    const few = SAMPLES.slice(0, 32);
    const [last] = flacFrames(few, { blockSize: 16, firstNumber: 2_000_000 });
    const bytes = joined(
      flacHead(few, { blockSize: 16, promised: 32_000_016 }),
      ...flacFrames(few, { blockSize: 16 }),
      last!,
    );
    const recording = await open(bytes);
    expect(recording.format.frames).toBe(16);
    expect(await readAll(recording, 2 ** 23)).toEqual(few);
  });

  it('hours of one value, eight channels of it, are refused with what they are', async () => {
    const head = flacHead([], { bits: 16, channels: 8, blockSize: 65_535, promised: 0 });
    const frame = (number: number): Uint8Array => {
      const header = joined(Uint8Array.of(0xff, 0xf8, 0x70, 0x78), coded(number), be(65_534, 2));
      const values = Uint8Array.from({ length: 24 }, (_, i) => (i % 3 === 2 ? 5 : 0));
      const unsummed = joined(header, Uint8Array.of(crc(header, 8, 0x07)), values);
      return joined(unsummed, be(crc(unsummed, 16, 0x8005), 2));
    };
    const hours = joined(head, ...Array.from({ length: 17_000 }, (_, number) => frame(number)));
    await expect(open(hours)).rejects.toThrow(/side\.flac packs 6\.4 h into 6\d{5} bytes/);
    // a minute of it is a quiet recording like others
    const minute = await open(joined(head, ...Array.from({ length: 44 }, (_, number) => frame(number))));
    expect(minute.format).toMatchObject({ channels: 8, frames: 44 * 65_535 });
  });
});

describe('what is refused', () => {
  it.each([
    ['32 bits', flacHead([], { bits: 32 }), 'flac-depth', /32 bits/],
    ['20 bits', flacHead([], { bits: 20 }), 'flac-depth', /20 bits/],
    ['8 bits', flacHead([], { bits: 8 }), 'too-few-bits', /8 bits/],
    ['no frames', flacHead([]), 'no-samples', /no samples/],
    ['cut in its header', flacHead([]).subarray(0, 30), 'short-header', /byte 30/],
    [
      'cut in its metadata',
      flac([], { metadata: [[1, new Uint8Array(50)]] }).subarray(0, 60),
      'no-samples',
      /no samples/,
    ],
    ['rate 0', flacHead([], { rateHz: 0 }), 'bad-header', /0 Hz/],
    ['blocks of 0', flacHead([], { blockSize: 0 }), 'bad-header', /0 to 0/],
    ['noise after the header', joined(flacHead([]), new Uint8Array(5_000).fill(0x55)), 'no-samples', /no samples/],
  ])('%s', async (_, bytes, code, message) => {
    const error = await open(bytes).then(
      () => null,
      (reason: unknown) => reason as CaptureError,
    );
    expect(error).toBeInstanceOf(CaptureError);
    expect(error!.code).toBe(code);
    expect(error!.message).toMatch(message);
  });
});

it('the checksums give the check values of their polynomials over "123456789"', () => {
  const digits = text('123456789');
  // CRC-8 0xF4 and CRC-16/UMTS 0xFEE8: from memory, not seen in a source; every file above rests on them too
  expect(crc8(digits, 0, 9)).toBe(0xf4);
  expect(crc16(digits, 0, 9)).toBe(0xfee8);
});
