import { createSHA256 } from 'hash-wasm';
import { readUpTo } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import type { ByteSource } from './recording.ts';

const PIECE_BYTES = 2 ** 20;

/** SHA-256 of bytes that go by in order, for whoever reads them anyway. */
class RunningFingerprint {
  readonly #hash: Awaited<ReturnType<typeof createSHA256>>;

  private constructor(hash: Awaited<ReturnType<typeof createSHA256>>) {
    this.#hash = hash;
  }

  static async begin(): Promise<RunningFingerprint> {
    return new RunningFingerprint(await createSHA256());
  }

  update(bytes: Uint8Array): void {
    this.#hash.update(bytes);
  }

  /** Lower-case hexadecimal; asked once, at the end. */
  finish(): string {
    return this.#hash.digest('hex');
  }
}

/**
 * SHA-256 of all bytes, lower-case hexadecimal, read in pieces: the same name for the same recording everywhere.
 *
 * @param onProgress called with the share done, 0 to 1
 * @source FIPS 180-4; checked against Node's own and two well-known values
 * @checked fingerprint.test.ts
 */
export async function fingerprint(source: ByteSource, onProgress?: (share: number) => void): Promise<string> {
  const running = await RunningFingerprint.begin();
  const piece = new Uint8Array(Math.min(PIECE_BYTES, Math.max(1, source.size)));
  for (let offset = 0; offset < source.size; ) {
    const bytes = await readUpTo(source, offset, PIECE_BYTES, piece);
    if (bytes.length === 0) {
      const what = `it ended at byte ${offset}, where ${source.size} bytes were expected`;
      throw new CaptureError('changed-while-read', { file: source.name, what });
    }
    running.update(bytes);
    offset += bytes.length;
    onProgress?.(offset / source.size);
  }
  return running.finish();
}
