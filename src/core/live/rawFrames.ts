/** Interleaved PCM as it comes out of a pipe, cut anywhere → blocks of stereo frames. @checked rawFrames.test.ts */
import { decodeSamples, SAMPLE_BYTES } from '../capture/decodeSamples.ts';
import type { SampleCode } from '../capture/waveFormat.ts';

export interface RawBlock {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly frames: number;
}

export class RawFrames {
  readonly #code: SampleCode;
  readonly #channels: number;
  readonly #frameBytes: number;
  /** of a frame that is not whole yet */
  #rest = new Uint8Array(0);

  constructor(code: SampleCode, channels: number) {
    this.#code = code;
    this.#channels = channels;
    this.#frameBytes = channels * SAMPLE_BYTES[code];
  }

  /** @returns the frames that are whole now; the arrays are new */
  push(bytes: Uint8Array): RawBlock {
    const joined = new Uint8Array(this.#rest.length + bytes.length);
    joined.set(this.#rest);
    joined.set(bytes, this.#rest.length);
    const frames = Math.floor(joined.length / this.#frameBytes);
    const [left, right] = [new Float64Array(frames), new Float64Array(frames)];
    decodeSamples(joined, this.#code, this.#channels, this.#frameBytes, frames, left, right);
    this.#rest = joined.slice(frames * this.#frameBytes);
    return { left, right, frames };
  }

  /** bytes at the end that make no whole frame */
  get leftOver(): number {
    return this.#rest.length;
  }
}
