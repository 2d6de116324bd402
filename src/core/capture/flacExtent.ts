/** Where a FLAC stream really ends, and where in it a sample stands. */
import { readUpTo } from './byteWindow.ts';
import { crc16 } from './flacChecksums.ts';
import { FlacFrameReader, longestFrame } from './flacFrames.ts';
import { type FlacStream, frameHeader } from './flacHeader.ts';
import type { ByteSource } from './recording.ts';

export interface FlacExtent {
  /** one past the last byte of audio: before a tag that stands at the file's end */
  readonly end: number;
  /** samples up to the end of the last sound frame; 0 where there is none */
  readonly frames: number;
}

/** Backward steps; each looks at a stretch of this many times the longest frame. */
const STRETCH = 8;

/**
 * Counts the samples that are really there, by the number in the last sound frame: the header may promise more, or not know.
 * Reads the last few frames of a healthy file; of a damaged one as much as it takes, backwards, a stretch at a time.
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
    const bytes = await readUpTo(source, from, upTo - from + longest);
    const stop = from + bytes.length;
    // ends a frame may have: where a later header was seen, and the end of the audio
    let ends = stop === end ? [bytes.length] : [];
    for (let at = bytes.length - 1; ; at--) {
      at = at < 0 ? -1 : bytes.lastIndexOf(0xff, at);
      if (at < 0) break;
      const header = frameHeader(bytes, at, stream);
      if (header === null) continue;
      if (ends.some((to) => crc16(bytes, at, to) === 0)) return { end, frames: header.startFrame + header.blockSize };
      ends = [at, ...ends.slice(0, 3)];
    }
  }
  return { end, frames: 0 };
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
