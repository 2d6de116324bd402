/** A byte source that tells how far reading has come, and takes the file's fingerprint from the bytes as they go by. */
import { RunningFingerprint } from '../../core/capture/fingerprint.ts';
import type { ByteSource } from '../../core/capture/recording.ts';

export interface ReadWatch extends ByteSource {
  /** end of the furthest byte read since `rewind` */
  position(): number;
  rewind(): void;
  /** SHA-256 of the whole source, reading what has not gone by yet */
  fingerprint(): Promise<string>;
}

const CHUNK = 4 * 1024 * 1024;

export async function watchReads(source: ByteSource): Promise<ReadWatch> {
  const hash = await RunningFingerprint.begin();
  let hashed = 0;
  let furthest = 0;
  const take = (offset: number, bytes: Uint8Array): void => {
    const end = offset + bytes.length;
    if (offset <= hashed && hashed < end) {
      hash.update(bytes.subarray(hashed - offset));
      hashed = end;
    }
  };
  return {
    name: source.name,
    size: source.size,
    async read(offset, length, into) {
      // a header is read in pieces: what was passed over is fetched, so that the pass over the samples continues it
      if (offset > hashed && offset - hashed <= CHUNK) take(hashed, await source.read(hashed, offset - hashed));
      const bytes = await source.read(offset, length, into);
      take(offset, bytes);
      furthest = Math.max(furthest, offset + bytes.length);
      return bytes;
    },
    position: () => furthest,
    rewind: () => {
      furthest = 0;
    },
    async fingerprint() {
      while (hashed < source.size) {
        const bytes = await source.read(hashed, Math.min(CHUNK, source.size - hashed));
        if (bytes.length === 0) throw new Error(`${source.name} became shorter while it was read`);
        take(hashed, bytes);
      }
      return hash.finish();
    },
  };
}
