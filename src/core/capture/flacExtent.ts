/** Where a FLAC stream really ends, and where in it a sample stands. */
import { readUpTo } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import { crc16 } from './flacChecksums.ts';
import { FlacFrameReader, longestFrame } from './flacFrames.ts';
import { type FlacStream, frameHeader, MOST_HEADER_BYTES } from './flacHeader.ts';
import type { ByteSource } from './recording.ts';

export interface FlacExtent {
  /** one past the last byte of the last sound frame */
  readonly end: number;
  /** samples up to the end of the last sound frame; 0 where there is none */
  readonly frames: number;
}

/** Bytes that a frame has at least: header and checksums, and of each channel one constant sample. */
const leastFrame = ({ channels, bitDepth }: FlacStream): number => 9 + channels * (1 + Math.ceil(bitDepth / 8));

/** Longest that may be packed into next to nothing, s. */
const LONGEST_EVEN_S = 3600;
/** No groove is so even that its noise packs smaller than this, times. */
const MOST_PACKED = 64;

/**
 * Samples that a stream of so many bytes may hold: what its frame numbers say is not believed beyond it.
 *
 * @param bytes of frames
 */
function mostSamples(stream: FlacStream, bytes: number): number {
  return Math.ceil(bytes / leastFrame(stream)) * stream.mostBlock;
}

/** What would keep a reader busy for hours and holds nothing to measure. */
function isEmptyLength({ sampleRateHz, channels, bitDepth }: FlacStream, frames: number, bytes: number): boolean {
  return frames > LONGEST_EVEN_S * sampleRateHz && (frames * channels * bitDepth) / 8 > MOST_PACKED * bytes;
}

/** Backward steps; each looks at a stretch of this many times the longest frame. */
const STRETCH = 8;

/**
 * Counts the samples that are really there, by the number in the last sound frame: the header may promise more, or not know.
 * Reads the last few frames of a healthy file; of a damaged one as much as it takes, backwards, a stretch at a time.
 *
 * @throws CaptureError for hours that are packed into next to nothing
 */
export async function flacExtent(source: ByteSource, stream: FlacStream): Promise<FlacExtent> {
  const tag = await readUpTo(source, Math.max(stream.audioStart, source.size - 128), 3);
  const tagged = source.size - 128 >= stream.audioStart && tag.length === 3 && String.fromCharCode(...tag) === 'TAG';
  const end = tagged ? source.size - 128 : source.size;
  const longest = longestFrame(stream);
  const step = STRETCH * Math.max(longest, 65_536);
  for (let upTo = end; upTo > stream.audioStart; upTo -= step) {
    const from = Math.max(stream.audioStart, upTo - step);
    // a frame that begins in this stretch may end one frame after it
    const bytes = await readUpTo(source, from, Math.min(end, upTo + longest) - from);
    const stop = from + bytes.length;
    // ends a frame may have: where a later header was seen, and the end of the audio
    let ends = stop === end ? [bytes.length, ...cutHeaders(bytes)] : [];
    for (let at = bytes.length - 1; ; at--) {
      at = at < 0 ? -1 : bytes.lastIndexOf(0xff, at);
      if (at < 0) break;
      const header = frameHeader(bytes, at, stream);
      if (header === null) continue;
      const frames = header.startFrame + header.blockSize;
      const to = ends.find((place) => crc16(bytes, at, place) === 0);
      if (to !== undefined && frames <= mostSamples(stream, end - stream.audioStart)) {
        const bytes = from + to - stream.audioStart;
        if (isEmptyLength(stream, frames, bytes)) {
          const hours = (frames / stream.sampleRateHz / 3600).toFixed(1);
          throw new CaptureError('too-long', { file: source.name, hours, bytes });
        }
        return { end: from + to, frames };
      }
      ends = [at, ...ends.slice(0, 5)];
    }
  }
  return { end, frames: 0 };
}

/** Places near the end where a header may begin that was itself cut off. */
function cutHeaders(bytes: Uint8Array): number[] {
  const places: number[] = [];
  for (let at = Math.max(0, bytes.length - MOST_HEADER_BYTES); at < bytes.length; at++) {
    if (bytes[at] === 0xff && (at + 1 === bytes.length || (bytes[at + 1]! & 0xfe) === 0xf8)) places.push(at);
  }
  return places;
}

/**
 * A byte from which reading on reaches `frame`: halves the stretch between the first frame and the end by the sample
 * numbers of sound frames, until it is a few frames long.
 */
export async function flacOffset(source: ByteSource, stream: FlacStream, end: number, frame: number): Promise<number> {
  let low = stream.audioStart;
  let high = end;
  while (frame > 0 && high - low > STRETCH * longestFrame(stream)) {
    const middle = Math.floor((low + high) / 2);
    const found = await new FlacFrameReader(source, stream, middle, high).next();
    if (found?.sound && found.startFrame <= frame && found.offset > low) low = found.offset;
    else high = middle;
  }
  return low;
}
