/** FLAC files made bit by bit for tests: verbatim subframes only, with right checksums, so that no encoder is needed. */
import { createHash } from 'node:crypto';
import { joined, sampleBytes, text } from './buildWave.ts';

export interface FlacFields {
  rateHz?: number;
  bits?: number;
  channels?: number;
  blockSize?: number;
  /** samples the header promises */
  promised?: number;
  md5?: Uint8Array;
  /** number of the first frame */
  firstNumber?: number;
  /** frames leave rate and depth to the stream's header */
  terse?: boolean;
  /** metadata blocks after the stream information: kind and payload */
  metadata?: readonly (readonly [number, Uint8Array])[];
}

/** One bit at a time over a whole message: the definition, not the table that the reader uses. */
export function crc(bytes: Uint8Array, width: 8 | 16, polynomial: number): number {
  const top = 2 ** (width - 1);
  let value = 0;
  for (const byte of bytes) {
    value ^= byte << (width - 8);
    for (let bit = 0; bit < 8; bit++) value = (value & top ? (value << 1) ^ polynomial : value << 1) & (2 * top - 1);
  }
  return value;
}

export const be = (value: number, width: number): Uint8Array =>
  Uint8Array.from({ length: width }, (_, i) => Math.floor(value / 256 ** (width - 1 - i)) & 0xff);

export function coded(number: number): Uint8Array {
  if (number < 0x80) return Uint8Array.of(number);
  const extra = number < 0x800 ? 1 : number < 0x10000 ? 2 : number < 0x200000 ? 3 : 4;
  const tail = Array.from({ length: extra }, (_, i) => 0x80 | (Math.floor(number / 64 ** (extra - 1 - i)) & 0x3f));
  return Uint8Array.of(((0xff00 >> (extra + 1)) & 0xff) | Math.floor(number / 64 ** extra), ...tail);
}

/** Frames of interleaved samples, each a whole FLAC frame. */
export function flacFrames(samples: readonly number[], fields: FlacFields = {}): Uint8Array[] {
  const { rateHz = 48_000, bits = 24, channels = 2, blockSize = 256, firstNumber = 0, terse = false } = fields;
  const total = samples.length / channels;
  const frames: Uint8Array[] = [];
  const bitsCode = new Map([
    [16, 4],
    [20, 5],
    [24, 6],
  ]).get(bits)!;
  for (let from = 0, number = firstNumber; from < total; from += blockSize, number++) {
    const count = Math.min(blockSize, total - from);
    const wide = rateHz > 65_535;
    const header = joined(
      Uint8Array.of(
        0xff,
        0xf8,
        0x70 | (terse ? 0 : wide ? 0x0e : 0x0d),
        ((channels - 1) << 4) | (terse ? 0 : bitsCode << 1),
      ),
      coded(number),
      be(count - 1, 2),
      terse ? new Uint8Array(0) : be(wide ? rateHz / 10 : rateHz, 2),
    );
    const bitStream: number[] = [];
    const put = (value: number, width: number): void => {
      for (let bit = width - 1; bit >= 0; bit--) bitStream.push(Math.floor(value / 2 ** bit) & 1);
    };
    for (let c = 0; c < channels; c++) {
      put(0b00000010, 8);
      for (let i = 0; i < count; i++)
        put(samples[(from + i) * channels + c]! + (samples[(from + i) * channels + c]! < 0 ? 2 ** bits : 0), bits);
    }
    while (bitStream.length % 8 !== 0) bitStream.push(0);
    const body = Uint8Array.from({ length: bitStream.length / 8 }, (_, i) =>
      bitStream.slice(8 * i, 8 * i + 8).reduce((byte, bit) => byte * 2 + bit, 0),
    );
    const unsummed = joined(header, Uint8Array.of(crc(header, 8, 0x07)), body);
    frames.push(joined(unsummed, be(crc(unsummed, 16, 0x8005), 2)));
  }
  return frames;
}

/** Signature and metadata in front of the frames. */
export function flacHead(samples: readonly number[], fields: FlacFields = {}): Uint8Array {
  const { rateHz = 48_000, bits = 24, channels = 2, blockSize = 256, metadata = [] } = fields;
  const promised = fields.promised ?? samples.length / channels;
  const width = bits <= 16 ? 16 : 24;
  const md5 = fields.md5 ?? createHash('md5').update(sampleBytes(samples, width)).digest();
  const info = joined(
    be(blockSize, 2),
    be(blockSize, 2),
    new Uint8Array(6),
    be(rateHz * 16 + (channels - 1) * 2 + ((bits - 1) >> 4), 3),
    be(((bits - 1) & 15) * 16 + Math.floor(promised / 2 ** 32), 1),
    be(promised % 2 ** 32, 4),
    md5,
  );
  const blocks = [[0, info] as const, ...metadata].map(([kind, payload], i, all) =>
    joined(Uint8Array.of(kind | (i === all.length - 1 ? 0x80 : 0)), be(payload.length, 3), payload),
  );
  return joined(text('fLaC'), ...blocks);
}

export const flac = (samples: readonly number[], fields: FlacFields = {}): Uint8Array =>
  joined(flacHead(samples, fields), ...flacFrames(samples, fields));
