/** Cuts a FLAC stream into its frames, each with its checksum tested, and finds its way again after damage. */
import { readUpTo } from './byteWindow.ts';
import { crc16 } from './flacChecksums.ts';
import { type FlacFrameHeader, type FlacStream, frameHeader, MOST_HEADER_BYTES } from './flacHeader.ts';
import type { ByteSource } from './recording.ts';

export interface FlacFrame extends FlacFrameHeader {
  /** byte of the source where it stands */
  readonly offset: number;
  readonly bytes: Uint8Array;
  /** the frame's checksum holds */
  readonly sound: boolean;
}

const PIECE_BYTES = 2 ** 19;

/**
 * Reads frames in order from any byte on. From a byte that is not a frame's first it goes to the next frame that is
 * sound, and likewise after damage. A frame's length is written nowhere: it ends where the header that continues its count stands.
 */
export class FlacFrameReader {
  readonly #source: ByteSource;
  readonly #stream: FlacStream;
  /** one past the last byte of the audio */
  #end: number;
  /** no frame is longer, bytes */
  readonly #longest: number;
  #bytes = new Uint8Array(0);
  /** byte of the source where #bytes begins */
  #origin: number;
  #at: number;

  constructor(source: ByteSource, stream: FlacStream, offset: number, end: number) {
    this.#source = source;
    this.#stream = stream;
    this.#end = end;
    this.#longest = longestFrame(stream);
    this.#origin = offset;
    this.#at = offset;
  }

  /** The next frame, sound or not; null at the end. */
  async next(): Promise<FlacFrame | null> {
    await this.#hold(this.#at, this.#longest + MOST_HEADER_BYTES);
    const header = this.#headerAt(this.#at);
    if (header === null) return this.#resync();
    const end = this.#endOf(this.#at, header);
    if (end === null) {
      // its successor is damaged: so, for all one can know, is it
      this.#at++;
      return this.#resync();
    }
    return this.#take(header, end);
  }

  /** Goes on byte by byte to a frame whose checksum holds. */
  async #resync(): Promise<FlacFrame | null> {
    for (;;) {
      await this.#hold(this.#at, this.#longest + MOST_HEADER_BYTES);
      const sync = this.#bytes.indexOf(0xff, this.#at - this.#origin);
      if (sync < 0) {
        if (this.#origin + this.#bytes.length >= this.#end) return null;
        this.#at = this.#origin + this.#bytes.length;
        continue;
      }
      this.#at = this.#origin + sync;
      await this.#hold(this.#at, this.#longest + MOST_HEADER_BYTES);
      const header = this.#headerAt(this.#at);
      const end = header === null ? null : this.#endOf(this.#at, header);
      if (header !== null && end !== null && crc16(this.#bytes, this.#at - this.#origin, end - this.#origin) === 0) {
        return this.#take(header, end);
      }
      this.#at++;
    }
  }

  #take(header: FlacFrameHeader, end: number): FlacFrame {
    const offset = this.#at;
    const bytes = this.#bytes.subarray(offset - this.#origin, end - this.#origin);
    this.#at = end;
    return { ...header, offset, bytes, sound: crc16(bytes, 0, bytes.length) === 0 };
  }

  #headerAt(offset: number): FlacFrameHeader | null {
    return frameHeader(this.#bytes, offset - this.#origin, this.#stream);
  }

  /** Where a frame ends: at the header that goes on with its count, or at the end of the audio. */
  #endOf(offset: number, header: FlacFrameHeader): number | null {
    const bytes = this.#bytes;
    const limit = Math.min(bytes.length, offset - this.#origin + this.#longest);
    const next = header.startFrame + header.blockSize;
    for (let p = offset - this.#origin + header.headerBytes; ; p++) {
      p = bytes.indexOf(0xff, p);
      if (p < 0 || p >= limit) break;
      if (frameHeader(bytes, p, this.#stream)?.startFrame === next) return this.#origin + p;
    }
    return this.#origin + bytes.length >= this.#end && this.#end - offset <= this.#longest ? this.#end : null;
  }

  /** Makes sure that `length` bytes from `offset` on are held, or all there are. */
  async #hold(offset: number, length: number): Promise<void> {
    const wanted = Math.min(this.#end, offset + length);
    const held = this.#origin + this.#bytes.length;
    if (wanted <= held) return;
    const keep = this.#bytes.subarray(Math.min(this.#bytes.length, offset - this.#origin));
    const from = offset + keep.length;
    const count = Math.min(this.#end - from, Math.max(PIECE_BYTES, wanted - from));
    const more = await readUpTo(this.#source, from, count);
    // a source that gives out early ends there
    if (more.length < count) this.#end = from + more.length;
    const bytes = new Uint8Array(keep.length + more.length);
    bytes.set(keep);
    bytes.set(more, keep.length);
    this.#bytes = bytes;
    this.#origin = offset;
  }
}

/** Uncompressed samples with one bit to spare (the side channel), subframe headers, frame header and checksum. */
export function longestFrame(stream: FlacStream): number {
  return Math.ceil((stream.mostBlock * stream.channels * (stream.bitDepth + 1)) / 8) + stream.channels * 64 + 64;
}
