/** Frames of FLAC through the decoder, back to exact integers. */
import { FLACDecoder } from '@wasm-audio-decoders/flac';
import type { FlacFrame } from './flacFrames.ts';
import { type FlacStream, selfContained } from './flacHeader.ts';

/** Decodes sound frames that follow each other; a break needs a fresh decoder, for it would invent what lies between. */
export class FlacRun {
  readonly #stream: FlacStream;
  #decoder: FLACDecoder | null = null;

  constructor(stream: FlacStream) {
    this.#stream = stream;
  }

  /** The file's own integers, channel by channel; null when the decoder could not do it after all. */
  async decode(frames: readonly FlacFrame[]): Promise<Int32Array[] | null> {
    try {
      if (this.#decoder === null) {
        this.#decoder = new FLACDecoder();
        await this.#decoder.ready;
      }
      const bytes = frames.map((frame) => selfContained(frame.bytes, frame.headerBytes, this.#stream.bitDepth));
      const { channelData, samplesDecoded, errors } = await this.#decoder.decodeFrames(bytes);
      const expected = frames.reduce((total, frame) => total + frame.blockSize, 0);
      const whole = errors.length === 0 && samplesDecoded === expected && channelData.length === this.#stream.channels;
      return whole ? channelData.map((samples) => integers(samples, this.#stream.bitDepth)) : null;
    } catch {
      // bytes that pass their checksum and yet break the decoder: it is thrown away, the frames count as damaged
      this.#decoder = null;
      return null;
    }
  }

  /** Its memory is its own and goes with it. */
  breakOff(): void {
    this.#decoder = null;
  }
}

/** Added and taken off again, it rounds a double under 2⁵¹ to its nearest integer, five times as fast as Math.round. */
const ROUNDER = 1.5 * 2 ** 52;

/**
 * The decoder scales by 1/(2^(b−1) − 1) into 32-bit floats; multiplied back and rounded that is the integer again, up to
 * 24 bits exactly.
 */
function integers(decoded: Float32Array, bits: number): Int32Array {
  const up = 2 ** (bits - 1) - 1;
  const samples = new Int32Array(decoded.length);
  for (let i = 0; i < samples.length; i++) samples[i] = decoded[i]! * up + ROUNDER - ROUNDER;
  return samples;
}
