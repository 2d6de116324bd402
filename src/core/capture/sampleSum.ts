/** The checksum that a FLAC header keeps of its samples. */
import { createMD5 } from 'hash-wasm';

/** MD5 over all channels' samples interleaved, least byte first. @source RFC 9639, section 8.2 */
export class SampleSum {
  readonly #hash: Awaited<ReturnType<typeof createMD5>>;
  readonly #bits: number;

  private constructor(hash: Awaited<ReturnType<typeof createMD5>>, bits: number) {
    this.#hash = hash;
    this.#bits = bits;
  }

  /** @param bits 16 or 24 */
  static async begin(bits: number): Promise<SampleSum> {
    return new SampleSum(await createMD5(), bits);
  }

  update(channels: readonly Int32Array[]): void {
    const count = channels.length;
    const frames = channels[0]!.length;
    const width = this.#bits / 8;
    const packed = new Uint8Array(frames * count * width);
    channels.forEach((samples, c) => {
      for (let i = 0, p = c * width; i < frames; i++, p += count * width) {
        const n = samples[i]!;
        packed[p] = n;
        packed[p + 1] = n >> 8;
        if (width === 3) packed[p + 2] = n >> 16;
      }
    });
    this.#hash.update(packed);
  }

  /** lower-case hexadecimal */
  digest(): string {
    return this.#hash.digest('hex');
  }
}
