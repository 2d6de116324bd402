/** A file on disk as a byte source, opened for reading only. */
import { readSync } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { ByteSource } from '../core/capture/recording.ts';

export interface FileSource extends ByteSource {
  close(): Promise<void>;
}

/**
 * Opens `path` for reading; the caller closes it. Errors of the file system pass through.
 *
 * Reads are made at once and not in another thread: the system reads ahead of them, and the bytes are then in the cache of
 * the core that works on them.
 */
export async function openFileSource(path: string): Promise<FileSource> {
  // looked at before it is opened: opening a pipe waits until somebody writes to it
  const found = await stat(path);
  if (!found.isFile()) {
    throw Object.assign(new Error(`${path} is not a file`), { code: found.isDirectory() ? 'EISDIR' : 'ENOTFILE' });
  }
  const handle: FileHandle = await open(path, 'r');
  return {
    name: basename(path),
    size: found.size,
    async read(offset, length, into) {
      const buffer = into ?? new Uint8Array(length);
      return buffer.subarray(0, readSync(handle.fd, buffer, 0, length, offset));
    },
    close: () => handle.close(),
  };
}
