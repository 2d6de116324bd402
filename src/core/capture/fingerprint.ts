import { createSHA256 } from 'hash-wasm';
import { readUpTo } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import type { ByteSource } from './recording.ts';

const PIECE_BYTES = 2 ** 20;

/**
 * SHA-256 of all bytes, lower-case hexadecimal, read in pieces: the same name for the same recording everywhere.
 *
 * @param onProgress called with the share done, 0 to 1
 * @source FIPS 180-4; checked against its examples
 * @checked fingerprint.test.ts
 */
export async function fingerprint(source: ByteSource, onProgress?: (share: number) => void): Promise<string> {
  const hash = await createSHA256();
  const piece = new Uint8Array(Math.min(PIECE_BYTES, Math.max(1, source.size)));
  for (let offset = 0; offset < source.size; ) {
    const bytes = await readUpTo(source, offset, PIECE_BYTES, piece);
    if (bytes.length === 0) {
      throw new CaptureError('changed-while-read', { file: source.name, offset, expected: source.size });
    }
    hash.update(bytes);
    offset += bytes.length;
    onProgress?.(offset / source.size);
  }
  return hash.digest('hex');
}
