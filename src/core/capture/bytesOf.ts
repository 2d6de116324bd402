import type { ByteSource } from './recording.ts';

/** A source over bytes in memory; for tests, and for short pieces that are already there. */
export function bytesOf(bytes: Uint8Array, name: string): ByteSource {
  return {
    name,
    size: bytes.length,
    read: async (offset, length) => bytes.subarray(offset, Math.min(bytes.length, offset + length)),
  };
}
