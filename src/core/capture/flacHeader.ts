/** The headers of FLAC: of the stream and of each frame. */
import { readExactly, readUpTo } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import { crc8, crc16 } from './flacChecksums.ts';
import { READABLE_RATES_HZ } from './formatProblems.ts';
import type { ByteSource } from './recording.ts';

export interface FlacStream {
  readonly sampleRateHz: number;
  readonly channels: number;
  readonly bitDepth: number;
  /** largest number of samples that a frame holds */
  readonly mostBlock: number;
  /** samples in every frame but the last, where frames are counted and not samples */
  readonly fixedBlock: number;
  /** sample number of the first frame: not 0 where a piece was cut out of a longer stream */
  readonly origin: number;
  /** samples the header promises; 0 where the writer could not know */
  readonly promisedFrames: number;
  /** MD5 of the samples as the writer had them, lower-case hexadecimal; null where it was not written */
  readonly md5: string | null;
  /** byte where the first frame stands */
  readonly audioStart: number;
}

export interface FlacFrameHeader {
  readonly startFrame: number;
  readonly blockSize: number;
  /** length of the header itself, bytes */
  readonly headerBytes: number;
  /** samples are counted in the stream, not frames of one size */
  readonly variable: boolean;
}

/** Metadata blocks before a stream are few; bounds the walk over hostile bytes. */
const MOST_BLOCKS = 1_000;

/**
 * Reads the stream's header and steps over its other metadata.
 *
 * @source RFC 9639, sections 8.1 and 8.2
 * @throws CaptureError when it is cut off, contradicts itself, or holds samples that are not read
 * @checked flac.test.ts
 */
export async function readFlacHeader(source: ByteSource, start: number): Promise<FlacStream> {
  const file = source.name;
  const bytes = await readExactly(source, start, 42, 'FLAC stream header');
  const length = (bytes[5]! << 16) | (bytes[6]! << 8) | bytes[7]!;
  if ((bytes[4]! & 0x7f) !== 0 || length !== 34) {
    const found = `a block of kind ${bytes[4]! & 0x7f} with ${length} bytes`;
    throw new CaptureError('bad-header', {
      file,
      part: 'FLAC header',
      found,
      expected: 'stream information of 34 bytes',
    });
  }
  const least = (bytes[8]! << 8) | bytes[9]!;
  const mostBlock = (bytes[10]! << 8) | bytes[11]!;
  if (!(16 <= least && least <= mostBlock)) {
    const found = `blocks of ${least} to ${mostBlock} samples`;
    throw new CaptureError('bad-header', { file, part: 'FLAC header', found, expected: '16 to 65535, least first' });
  }
  const sampleRateHz = (bytes[18]! << 12) | (bytes[19]! << 4) | (bytes[20]! >> 4);
  const channels = ((bytes[20]! >> 1) & 7) + 1;
  const bitDepth = (((bytes[20]! & 1) << 4) | (bytes[21]! >> 4)) + 1;
  const promisedFrames =
    (bytes[21]! & 15) * 2 ** 32 + (((bytes[22]! << 24) | (bytes[23]! << 16) | (bytes[24]! << 8) | bytes[25]!) >>> 0);
  if (!(READABLE_RATES_HZ[0] <= sampleRateHz && sampleRateHz <= READABLE_RATES_HZ[1])) {
    const expected = `${READABLE_RATES_HZ[0]} to ${READABLE_RATES_HZ[1]} Hz`;
    throw new CaptureError('bad-header', { file, part: 'sample rate', found: `${sampleRateHz} Hz`, expected });
  }
  if (bitDepth < 16) throw new CaptureError('too-few-bits', { file, bits: bitDepth });
  // the decoder returns infinities at 20 bits and has no 32; 16 and 24 are what recorders write
  if (bitDepth !== 16 && bitDepth !== 24) throw new CaptureError('flac-depth', { file, bits: bitDepth });
  const sum = bytes.subarray(26, 42);
  const md5 = sum.every((byte) => byte === 0)
    ? null
    : [...sum].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  let at = start + 42;
  let last = (bytes[4]! & 0x80) !== 0;
  for (let block = 0; !last && block < MOST_BLOCKS; block++) {
    const head = await readExactly(source, at, 4, 'FLAC metadata');
    last = (head[0]! & 0x80) !== 0;
    at += 4 + ((head[1]! << 16) | (head[2]! << 8) | head[3]!);
  }
  if (at >= source.size) throw new CaptureError('no-samples', { file });
  const stream = { sampleRateHz, channels, bitDepth, promisedFrames, md5, audioStart: at };
  const lenient = { ...stream, mostBlock: 65_535, fixedBlock: 1, origin: 0 };
  const first = frameHeader(await readUpTo(source, at, MOST_HEADER_BYTES), 0, lenient);
  if (first === null) return { ...stream, mostBlock, fixedBlock: mostBlock, origin: 0 };
  // where the first frame and the stream's header disagree, the frame is what was written last
  const fixedBlock = first.blockSize;
  const origin = first.startFrame * (first.variable ? 1 : fixedBlock);
  return { ...stream, mostBlock: Math.max(mostBlock, fixedBlock), fixedBlock, origin };
}

const RATES_HZ: readonly number[] = [
  0, 88_200, 176_400, 192_000, 8_000, 16_000, 22_050, 24_000, 32_000, 44_100, 48_000, 96_000,
];
const BITS: readonly number[] = [0, 8, 12, -1, 16, 20, 24, 32];
/** Longest frame header, bytes. */
export const MOST_HEADER_BYTES = 16;

/**
 * Reads a frame header that agrees with its stream and with its own checksum; null for anything else, so that it can be
 * tried at every sync code.
 *
 * @param bytes as many as there are from `at`; a header that runs over their end is null
 * @source RFC 9639, section 9.1
 */
export function frameHeader(bytes: Uint8Array, at: number, stream: FlacStream): FlacFrameHeader | null {
  if (at + 6 > bytes.length || bytes[at] !== 0xff || (bytes[at + 1]! & 0xfe) !== 0xf8) return null;
  const variable = (bytes[at + 1]! & 1) === 1;
  const blockCode = bytes[at + 2]! >> 4;
  const rateCode = bytes[at + 2]! & 15;
  const layout = bytes[at + 3]! >> 4;
  const bits = BITS[(bytes[at + 3]! >> 1) & 7]!;
  if (blockCode === 0 || rateCode === 15 || layout > 10 || (bytes[at + 3]! & 1) !== 0) return null;
  if ((layout < 8 ? layout + 1 : 2) !== stream.channels || (bits !== 0 && bits !== stream.bitDepth)) return null;
  let p = at + 4;
  const first = bytes[p++]!;
  const extra = first < 0x80 ? 0 : Math.clz32(~(first << 24)) - 1;
  if (extra < 0 || (first >= 0x80 && extra === 0) || extra > 6) return null;
  let number = first < 0x80 ? first : first & (0x3f >> extra);
  for (let i = 0; i < extra; i++, p++) {
    if ((bytes[p]! & 0xc0) !== 0x80) return null;
    number = number * 64 + (bytes[p]! & 0x3f);
  }
  let blockSize = blockCode === 1 ? 192 : blockCode < 6 ? 144 << blockCode : 1 << blockCode;
  if (blockCode === 6) blockSize = bytes[p++]! + 1;
  if (blockCode === 7) {
    blockSize = ((bytes[p]! << 8) | bytes[p + 1]!) + 1;
    p += 2;
  }
  let rateHz = RATES_HZ[rateCode] ?? 0;
  if (rateCode === 12) rateHz = bytes[p++]! * 1000;
  if (rateCode > 12) {
    rateHz = ((bytes[p]! << 8) | bytes[p + 1]!) * (rateCode === 14 ? 10 : 1);
    p += 2;
  }
  if (p >= bytes.length || (rateHz !== stream.sampleRateHz && rateCode !== 0) || blockSize > stream.mostBlock)
    return null;
  if (crc8(bytes, at, p) !== bytes[p]) return null;
  const startFrame = (variable ? number : number * stream.fixedBlock) - stream.origin;
  return startFrame < 0 ? null : { startFrame, blockSize, headerBytes: p + 1 - at, variable };
}

/**
 * A frame that can be decoded without its stream's header. Where it leaves rate or depth to that header they are written
 * in, and both checksums anew; the rate does not matter to the samples.
 */
export function selfContained(frame: Uint8Array, headerBytes: number, bitDepth: number): Uint8Array {
  const rateCode = frame[2]! & 15;
  const bitsCode = (frame[3]! >> 1) & 7;
  if (rateCode !== 0 && bitsCode !== 0) return frame;
  const bytes = new Uint8Array(frame);
  if (rateCode === 0) bytes[2]! |= RATES_HZ.indexOf(48_000);
  if (bitsCode === 0) bytes[3]! |= BITS.indexOf(bitDepth) << 1;
  bytes[headerBytes - 1] = crc8(bytes, 0, headerBytes - 1);
  const sum = crc16(bytes, 0, bytes.length - 2);
  bytes[bytes.length - 2] = sum >> 8;
  bytes[bytes.length - 1] = sum & 0xff;
  return bytes;
}
