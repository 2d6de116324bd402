import { describe, expect, it } from 'vitest';
import {
  chunk,
  type Depth,
  ds64,
  formatChunk,
  joined,
  riff,
  sampleBytes,
  seededIntegers,
  text,
  wave,
} from '../../../test/faults/buildWave.ts';
import { readAll } from '../../../test/faults/readAll.ts';
import { bytesOf } from './bytesOf.ts';
import { CaptureError } from './captureError.ts';
import { openRecording } from './openRecording.ts';
import type { Recording } from './recording.ts';

const open = (bytes: Uint8Array): Promise<Recording> => openRecording(bytesOf(bytes, 'side.wav'));
/** codes of the problems found, without the length of these short files */
const codes = (recording: Recording): string[] =>
  recording.problems.map(({ code }) => code).filter((code) => code !== 'too-short');
const failure = async (bytes: Uint8Array): Promise<CaptureError> => {
  const error = await open(bytes).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(CaptureError);
  return error as CaptureError;
};

const INTEGERS = seededIntegers(2_000, 24, 11);
const PLAIN = chunk('data', sampleBytes(INTEGERS, 24));

describe('samples come back as they were written', () => {
  const depths: readonly (readonly [Depth, number])[] = [
    [16, 16],
    [24, 24],
    [32, 32],
  ];
  it.each(depths)('%s-bit integers, extremes included, to the last bit', async (depth, bits) => {
    const extremes = [-(2 ** (bits - 1)), 2 ** (bits - 1) - 1, -1, 0, 1, 255, 256, -256];
    const samples = [...extremes, ...seededIntegers(4_000, bits, 7)];
    const recording = await open(wave(samples, depth));
    expect(await readAll(recording, 2 ** (bits - 1))).toEqual(samples.map((sample) => sample + 0));
    expect(recording.format).toMatchObject({ bitDepth: bits, encoding: 'integer', container: 'wav', channels: 2 });
    expect(recording.format.frames).toBe(samples.length / 2);
  });

  it('32- and 64-bit float, beyond full scale too', async () => {
    const samples = [0.5, -1.25, 1e-9, 3, ...seededIntegers(400, 24, 3).map((n) => n / 2 ** 23)];
    for (const depth of ['float32', 'float64'] as const) {
      const recording = await open(wave(samples, depth));
      const expected = depth === 'float32' ? samples.map(Math.fround) : samples;
      expect(await readAll(recording, 1)).toEqual(expected);
      expect(recording.format).toMatchObject({ encoding: 'float', bitDepth: Number(depth.slice(5)) });
    }
  });

  it('20 bits in 24 and 24 bits in 32, left-justified, with the valid depth told', async () => {
    const twenty = seededIntegers(200, 20, 5).map((n) => n * 16);
    const narrow = await open(riff([formatChunk({ bits: 24, validBits: 20 }), chunk('data', sampleBytes(twenty, 24))]));
    expect(narrow.format.bitDepth).toBe(20);
    expect(await readAll(narrow, 2 ** 23)).toEqual(twenty);
    const wide = seededIntegers(200, 24, 5).map((n) => n * 256);
    const held = await open(riff([formatChunk({ bits: 32, validBits: 24 }), chunk('data', sampleBytes(wide, 32))]));
    expect(held.format.bitDepth).toBe(24);
    expect(await readAll(held, 2 ** 31)).toEqual(wide);
  });

  it('more than two channels: the first two; one channel: on both sides', async () => {
    const four = seededIntegers(400, 16, 9);
    const many = await open(riff([formatChunk({ bits: 16, channels: 4 }), chunk('data', sampleBytes(four, 16))]));
    expect(codes(many)).toEqual(['extra-channels']);
    expect(await readAll(many, 2 ** 15)).toEqual(four.filter((_, i) => i % 4 < 2));
    const one = await open(riff([formatChunk({ bits: 16, channels: 1 }), chunk('data', sampleBytes(four, 16))]));
    expect(codes(one)).toEqual(['mono']);
    expect(await readAll(one, 2 ** 15)).toEqual(four.flatMap((n) => [n, n]));
  });

  it('a stretch asked for is that stretch, at every edge', async () => {
    const recording = await open(wave(INTEGERS, 24));
    for (const [fromFrame, toFrame] of [
      [0, 0],
      [0, 1],
      [999, 1000],
      [123, 877],
      [1000, 1000],
    ] as const) {
      expect(await readAll(recording, 2 ** 23, { fromFrame, toFrame })).toEqual(
        INTEGERS.slice(2 * fromFrame, 2 * toFrame),
      );
    }
    for (const range of [
      { fromFrame: -1, toFrame: 5 },
      { fromFrame: 0, toFrame: 1001 },
      { fromFrame: 5, toFrame: 4 },
      { fromFrame: Number.NaN, toFrame: 4 },
    ]) {
      await expect(readAll(recording, 1, range)).rejects.toThrow(RangeError);
    }
  });

  it('blocks of at most 65536 frames that join without a seam', async () => {
    const samples = seededIntegers(300_000, 16, 21);
    const recording = await open(wave(samples, 16));
    const sizes: number[] = [];
    for await (const block of recording.blocks()) sizes.push(block.frames);
    expect(Math.max(...sizes)).toBe(65_536);
    expect(sizes.reduce((a, b) => a + b)).toBe(150_000);
    expect(await readAll(recording, 2 ** 15)).toEqual(samples);
  });

  it('float samples that are no numbers become 0 and are counted in their block', async () => {
    const recording = await open(wave([0.1, Number.NaN, Number.POSITIVE_INFINITY, -0.25, 1e30, 0.5], 'float32'));
    let replaced = 0;
    for await (const block of recording.blocks()) replaced += block.replaced ?? 0;
    expect(replaced).toBe(3);
    expect(await readAll(recording, 1)).toEqual([Math.fround(0.1), 0, 0, -0.25, 0, 0.5]);
  });
});

describe('whatever else stands in the file', () => {
  it('odd, unknown and text chunks before and after the samples', async () => {
    const odd = chunk('xyzQ', Uint8Array.of(1, 2, 3));
    const recording = await open(
      riff([
        chunk('JUNK', new Uint8Array(27)),
        chunk('bext', new Uint8Array(602).fill(65)),
        odd,
        formatChunk(),
        chunk('LIST', text('INFOISFT....')),
        odd,
        PLAIN,
        odd,
        chunk('id3 ', new Uint8Array(9)),
      ]),
    );
    expect(codes(recording)).toEqual([]);
    expect(await readAll(recording, 2 ** 23)).toEqual(INTEGERS);
  });

  it('an odd data chunk with its pad byte, and one whose writer forgot a pad byte before it', async () => {
    const odd = sampleBytes(seededIntegers(7, 24, 2), 24);
    const mono = await open(riff([formatChunk({ channels: 1 }), chunk('data', odd), chunk('LIST', text('INFO'))]));
    expect(mono.format.frames).toBe(7);
    const unpadded = await open(riff([chunk('LIST', text('INFOabc'), { pad: false }), formatChunk(), PLAIN]));
    expect(codes(unpadded)).toEqual(['pad-byte-missing']);
    expect(await readAll(unpadded, 2 ** 23)).toEqual(INTEGERS);
  });

  it('format after the samples', async () => {
    const recording = await open(riff([PLAIN, formatChunk()]));
    expect(await readAll(recording, 2 ** 23)).toEqual(INTEGERS);
  });

  it.each(['RF64', 'BW64'])('%s with its length in ds64', async (id) => {
    const data = chunk('data', sampleBytes(INTEGERS, 24), { size: 0xffffffff });
    const recording = await open(riff([ds64(6_000), formatChunk(), data, chunk('axml', text('<x/>'))], id, 0xffffffff));
    expect(recording.format.container).toBe(id.toLowerCase());
    expect(codes(recording)).toEqual([]);
    expect(await readAll(recording, 2 ** 23)).toEqual(INTEGERS);
  });
});

describe('headers that lie', () => {
  const withSize = (size: number): Uint8Array =>
    riff([formatChunk(), chunk('data', sampleBytes(INTEGERS, 24), { size })], 'RIFF', size === 0 ? 0 : undefined);

  it.each([
    ['length 0', withSize(0), 'not-closed'],
    ['length left open', withSize(0xffffffff), 'not-closed'],
    ['more than there is', withSize(60_000), 'cut-short'],
    [
      'RF64 without ds64',
      riff([formatChunk(), chunk('data', sampleBytes(INTEGERS, 24), { size: 0xffffffff })], 'RF64'),
      'not-closed',
    ],
    [
      'ds64 of 0',
      riff([ds64(0), formatChunk(), chunk('data', sampleBytes(INTEGERS, 24), { size: 0xffffffff })], 'RF64'),
      'not-closed',
    ],
    [
      'ds64 of 1 TB',
      riff([ds64(1e12), formatChunk(), chunk('data', sampleBytes(INTEGERS, 24), { size: 0xffffffff })], 'RF64'),
      'cut-short',
    ],
  ])('%s: read to the end, with a note', async (_, bytes, code) => {
    const recording = await open(bytes);
    expect(codes(recording)).toEqual([code]);
    expect(recording.format.frames).toBe(1_000);
    expect(await readAll(recording, 2 ** 23)).toEqual(INTEGERS);
  });

  it('a last frame cut in two is left out with a note', async () => {
    const recording = await open(wave(INTEGERS, 24).subarray(0, 44 + 6 * 500 + 4));
    expect(codes(recording)).toEqual(['cut-short', 'half-frame']);
    expect(recording.format.frames).toBe(500);
    expect(recording.problems[0]!.message).toContain('0.01 s');
  });

  it('a file that is still written, or was never closed, ends on half a pair without having lost a sample', async () => {
    const half = (size: number) =>
      riff([formatChunk(), chunk('data', sampleBytes(INTEGERS, 24).subarray(0, 6 * 500 + 3), { size, pad: false })]);
    expect(codes(await open(half(0)))).toEqual(['not-closed', 'half-frame']);
    expect(codes(await open(half(0xffffffff)))).toEqual(['not-closed', 'half-frame']);
    // two seconds were promised: broken off, not damaged on its way
    expect(codes(await open(half(2 * 48_000 * 6)))).toEqual(['cut-short', 'half-frame']);
    expect(codes(await open(half(6 * 501)))).toEqual(['cut-short', 'half-frame', 'one-sample-off']);
  });

  it('three bytes between the samples and what follows are a sample too many; a short last chunk is none', async () => {
    const list = chunk('LIST', text('INFOxyz'), { pad: false });
    const samples = chunk('data', sampleBytes(INTEGERS, 24));
    expect(codes(await open(riff([formatChunk(), samples, Uint8Array.of(7, 7, 7), list])))).toEqual(['one-sample-off']);
    expect(codes(await open(riff([formatChunk(), samples, list])))).toEqual([]);
    expect(codes(await open(riff([formatChunk(), samples, Uint8Array.of(7, 7, 7)])))).toEqual(['one-sample-off']);
  });

  it('a byte rate that means another usual rate is told; an idle one is not', async () => {
    expect(codes(await open(wave(INTEGERS, 24, { byteRate: 96_000 * 6 })))).toEqual(['rate-disagrees']);
    expect(codes(await open(wave(INTEGERS, 24, { byteRate: 0 })))).toEqual([]);
    expect(codes(await open(wave(INTEGERS, 24, { byteRate: 123_456 })))).toEqual([]);
  });

  it('a length that ran over 32 bits in a plain WAV is taken with what it lost', async () => {
    const head = joined(
      text('RIFF'),
      new Uint8Array(4),
      text('WAVE'),
      formatChunk({ bits: 16 }),
      text('data'),
      Uint8Array.of(0, 0, 1, 0),
    );
    const size = head.length + 65_536 + 2 ** 32;
    const recording = await openRecording({
      name: 'long.wav',
      size,
      read: async (offset, length) => {
        const bytes = new Uint8Array(Math.min(length, size - offset));
        if (offset < head.length) bytes.set(head.subarray(offset, offset + bytes.length));
        return bytes;
      },
    });
    expect(codes(recording)).toEqual(['not-closed']);
    expect(recording.format.frames).toBe((2 ** 32 + 65_536) / 4);
  });
});

describe('what is refused, in one sentence that names it', () => {
  const data = (bytes = 600): Uint8Array => chunk('data', new Uint8Array(bytes));
  it.each([
    ['8 bits', riff([formatChunk({ bits: 8 }), data()]), 'too-few-bits', /8 bits/],
    ['8 valid bits', riff([formatChunk({ bits: 16, validBits: 8 }), data()]), 'too-few-bits', /8 bits/],
    ['A-law', riff([formatChunk({ tag: 6, bits: 8 }), data()]), 'unsupported-encoding', /A-law/],
    ['ADPCM', riff([formatChunk({ tag: 2, bits: 16 }), data()]), 'unsupported-encoding', /ADPCM/],
    ['an unknown tag', riff([formatChunk({ tag: 0x1234 }), data()]), 'unsupported-encoding', /0x1234/],
    [
      'another sub-format',
      riff([formatChunk({ validBits: 24, guidTail: new Array(14).fill(9) }), data()]),
      'unsupported-encoding',
      /sub-format/,
    ],
    ['16-bit float', riff([formatChunk({ tag: 3, bits: 16 }), data()]), 'unsupported-encoding', /16-bit float/],
    ['64-bit integers', riff([formatChunk({ bits: 64 }), data()]), 'unsupported-encoding', /64-bit PCM/],
    ['no channels', riff([formatChunk({ channels: 0, frameBytes: 6 }), data()]), 'bad-header', /channel count says 0/],
    [
      'a frame size that does not fit',
      riff([formatChunk({ frameBytes: 5 }), data()]),
      'bad-header',
      /5 bytes for 2 channels/,
    ],
    ['rate 0', riff([formatChunk({ rateHz: 0 }), data()]), 'bad-header', /0 Hz/],
    ['rate 1 MHz', riff([formatChunk({ rateHz: 1_000_000 }), data()]), 'bad-header', /1000000 Hz/],
    ['more valid bits than bits', riff([formatChunk({ bits: 24, validBits: 32 }), data()]), 'bad-header', /32/],
    ['a short format chunk', riff([chunk('fmt ', new Uint8Array(12)), data()]), 'bad-header', /12 bytes/],
    ['no format', riff([chunk('JUNK', new Uint8Array(16)), data()]), 'no-format', /no readable format/],
    ['no samples chunk', riff([formatChunk(), chunk('JUNK', new Uint8Array(16))]), 'no-samples', /no samples/],
    ['an empty samples chunk', riff([formatChunk(), data(0), chunk('LIST', text('INFO'))]), 'no-samples', /no samples/],
    ['an AVI', joined(text('RIFF'), Uint8Array.of(9, 0, 0, 0), text('AVI LIST')), 'other-format', /AVI/],
    ['a header cut off', text('RIFF12'), 'short-header', /byte 6/],
  ])('%s', async (_, bytes, code, message) => {
    const error = await failure(bytes);
    expect(error.code).toBe(code);
    expect(error.message).toMatch(message);
    expect(error.message).toMatch(/^side\.wav[^\n]*\.$/);
  });
});
