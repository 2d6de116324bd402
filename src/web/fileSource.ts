/** A file the person chose as a byte source: slices are read as they are needed, nothing is copied or sent. */
import type { ByteSource } from '../core/capture/recording.ts';

export function fileSource(file: File): ByteSource {
  return {
    name: file.name,
    size: file.size,
    read: async (offset, length) => new Uint8Array(await file.slice(offset, offset + length).arrayBuffer()),
  };
}
