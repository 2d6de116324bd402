/** A file on disk as a byte source, opened for reading only, as long as it was when it was opened. */
import { fstatSync, readSync, statSync } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { CaptureError } from '../core/capture/captureError.ts';
import type { ByteSource } from '../core/capture/recording.ts';

/** An open file, as other threads of this process are told of it: all read the very same one, whatever its path leads to by then. */
export interface OpenFile {
  readonly fd: number;
  readonly name: string;
  /** bytes when it was opened; what is added later is not looked at */
  readonly size: number;
}

export interface FileSource extends ByteSource {
  readonly file: OpenFile;
  /**
   * What became of the file since it was opened; to be asked before it is closed.
   * @throws CaptureError when what was read may be of two recordings
   */
  sinceOpened(): 'same' | 'grown';
  close(): Promise<void>;
}

/**
 * Reads are made at once and not in another thread: the system reads ahead of them, and the bytes are then in the cache of
 * the core that works on them.
 */
export const bytesOfFile = ({ fd, name, size }: OpenFile): ByteSource => ({
  name,
  size,
  async read(offset, length, into) {
    const most = Math.max(0, Math.min(length, size - offset));
    const buffer = into ?? new Uint8Array(most);
    return buffer.subarray(0, readSync(fd, buffer, 0, most, offset));
  },
});

/** Opens `path` for reading; the caller closes it. Errors of the file system pass through. */
export async function openFileSource(path: string): Promise<FileSource> {
  // looked at before it is opened: opening a pipe waits until somebody writes to it
  const found = await stat(path);
  if (!found.isFile()) {
    throw Object.assign(new Error(`${path} is not a file`), { code: found.isDirectory() ? 'EISDIR' : 'ENOTFILE' });
  }
  const handle = await open(path, 'r');
  const opened = await handle.stat();
  const file: OpenFile = { fd: handle.fd, name: basename(path), size: opened.size };
  const changed = (what: string): CaptureError => new CaptureError('changed-while-read', { file: file.name, what });
  return {
    ...bytesOfFile(file),
    file,
    sinceOpened() {
      const now = fstatSync(handle.fd);
      const there = statSync(path, { throwIfNoEntry: false });
      if (there === undefined || there.ino !== opened.ino || there.dev !== opened.dev) {
        throw changed('another file, or none, is in its place');
      }
      if (now.size < opened.size) throw changed('it became shorter');
      if (now.size > opened.size) return 'grown';
      if (now.mtimeMs !== opened.mtimeMs) throw changed('it was written to');
      return 'same';
    },
    close: () => handle.close(),
  };
}
