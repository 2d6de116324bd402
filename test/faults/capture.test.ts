/** Hostile and unlucky bytes: every file either opens as a recording or is refused with a sentence. Nothing else. */
import { describe, expect, it } from 'vitest';
import { CaptureError } from '../../src/core/capture/captureError.ts';
import { openRecording } from '../../src/core/capture/openRecording.ts';
import type { ByteSource } from '../../src/core/capture/recording.ts';
import { SampleInspector } from '../../src/core/capture/sampleInspector.ts';
import { flac } from './buildFlac.ts';
import { chunk, ds64, formatChunk, riff, sampleBytes, seededIntegers, text, wave } from './buildWave.ts';

const SEED = 20_260_301;

/** Bytes that refuse to be read outside themselves. */
function guarded(bytes: Uint8Array): ByteSource {
  return {
    name: 'hostile',
    size: bytes.length,
    read: async (offset, length) => {
      if (!(Number.isInteger(offset) && 0 <= offset && offset <= bytes.length)) throw new Error(`read at ${offset}`);
      if (!(Number.isInteger(length) && 0 < length && offset + length <= bytes.length))
        throw new Error(`read ${length} at ${offset} of ${bytes.length}`);
      return bytes.subarray(offset, offset + length);
    },
  };
}

/** Opens and reads everything; fails on anything but a CaptureError, on a value that is no number, on a wrong count. */
async function survives(bytes: Uint8Array, what: string): Promise<'read' | 'refused'> {
  try {
    const recording = await openRecording(guarded(bytes));
    const { format } = recording;
    expect(format.frames, what).toBeGreaterThan(0);
    expect(Number.isFinite(format.durationS), what).toBe(true);
    const inspector = new SampleInspector(format);
    let frames = 0;
    for await (const block of recording.blocks()) {
      expect(block.startFrame, what).toBe(frames);
      frames += block.frames;
      for (let i = 0; i < block.frames; i++) {
        if (!(Number.isFinite(block.left[i]) && Number.isFinite(block.right[i])))
          throw new Error(`${what}: not finite`);
      }
      inspector.push(block);
      if (frames > 100_000_000) throw new Error(`${what}: no end`);
    }
    expect(frames, what).toBe(format.frames);
    for (const { message } of [...recording.problems, ...inspector.finish()]) {
      expect(message, what).not.toMatch(/NaN|Infinity|undefined|\n/);
    }
    return 'read';
  } catch (error) {
    if (!(error instanceof CaptureError)) throw new Error(`${what}: ${String(error)}`, { cause: error });
    expect(error.message, what).toMatch(/^hostile[^\n]*\.$/);
    expect(error.message, what).not.toMatch(/read \d+ at|NaN|undefined/);
    return 'refused';
  }
}

const samples24 = seededIntegers(240, 24, SEED);
const files: Readonly<Record<string, Uint8Array>> = {
  'WAV 24': wave(samples24, 24),
  'WAV float': wave(
    samples24.map((n) => n / 2 ** 23),
    'float32',
  ),
  'extensible with chunks': riff([
    chunk('JUNK', new Uint8Array(5)),
    formatChunk({ bits: 24, validBits: 24 }),
    chunk('LIST', text('INFOISFT\u0004\0\0\0none')),
    chunk('data', sampleBytes(samples24, 24)),
    chunk('id3 ', new Uint8Array(3)),
  ]),
  RF64: riff(
    [ds64(720), formatChunk(), chunk('data', sampleBytes(samples24, 24), { size: 0xffffffff })],
    'RF64',
    0xffffffff,
  ),
  FLAC: flac(samples24, { blockSize: 48, metadata: [[4, text('comment')]] }),
};

describe.each(Object.entries(files))('%s', (name, bytes) => {
  it('is sound to begin with', async () => {
    expect(await survives(bytes, name)).toBe('read');
  });

  it('cut off after any byte', async () => {
    let refused = 0;
    for (let length = 0; length < bytes.length; length++) {
      if ((await survives(bytes.subarray(0, length), `${name} cut to ${length}`)) === 'refused') refused++;
    }
    expect(refused).toBeGreaterThan(10);
    expect(refused).toBeLessThan(bytes.length);
  });

  it('with any byte of its header set to 0, 1, 127, 128 and 255', async () => {
    const header = Math.min(bytes.length, 160);
    let read = 0;
    for (let at = 0; at < header; at++) {
      for (const value of [0, 1, 127, 128, 255]) {
        const hurt = bytes.slice();
        hurt[at] = value;
        if ((await survives(hurt, `${name} byte ${at} = ${value}`)) === 'read') read++;
      }
    }
    expect(read).toBeGreaterThan(header);
  });

  it(`with bytes thrown in at random (seed ${SEED})`, async () => {
    const places = seededIntegers(6_000, 31, SEED).map(Math.abs);
    for (let trial = 0; trial < 250; trial++) {
      const hurt = bytes.slice();
      for (let k = 0; k < 1 + (trial % 7); k++) {
        const seed = places[trial * 14 + 2 * k]!;
        hurt[seed % (trial % 2 === 0 ? Math.min(80, hurt.length) : hurt.length)] = places[trial * 14 + 2 * k + 1]! >> 8;
      }
      const end = trial % 3 === 0 ? places[trial]! % hurt.length : hurt.length;
      await survives(hurt.subarray(0, end), `${name} trial ${trial} of seed ${SEED}`);
    }
  });
});
