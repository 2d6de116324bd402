/** A temporary file without a name, for what is kept of captures longer than a side: numbers of its spectra, no sound. */

import { randomUUID } from 'node:crypto';
import { closeSync, openSync, readSync, unlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Shelf, ShelfPlace } from '../core/record/shelf.ts';

export class FileShelf implements Shelf {
  private fd: number | null = null;
  private end = 0;
  private isFull = false;
  private readonly folder: string;

  constructor(folder: string = tmpdir()) {
    this.folder = folder;
  }

  put(bytes: Uint8Array): ShelfPlace | null {
    if (this.isFull) return null;
    try {
      this.fd ??= openUnnamed(this.folder);
      for (let done = 0; done < bytes.length; ) {
        done += writeSync(this.fd, bytes, done, bytes.length - done, this.end + done);
      }
      const place = { shelf: this.fd, at: this.end, bytes: bytes.length };
      this.end += bytes.length;
      return place;
    } catch {
      // no room, or nowhere to write: memory does as well
      this.isFull = true;
      return null;
    }
  }

  /** Of this shelf or of one in another thread. */
  take({ shelf, at, bytes }: ShelfPlace): Uint8Array<ArrayBuffer> {
    const taken = new Uint8Array(bytes);
    for (let done = 0; done < bytes; ) {
      const read = readSync(shelf, taken, done, bytes - done, at + done);
      if (read === 0) throw new RangeError(`the temporary file ended at ${at + done}, before ${at + bytes} bytes`);
      done += read;
    }
    return taken;
  }

  /** In a thread its end does as well. */
  close(): void {
    if (this.fd !== null) closeSync(this.fd);
    this.fd = null;
  }
}

/** Open for this user alone, and gone from the folder at once: the system frees it when the program ends, however it ends. */
function openUnnamed(folder: string): number {
  const path = join(folder, `platterside-${randomUUID()}`);
  const fd = openSync(path, 'wx+', 0o600);
  unlinkSync(path);
  return fd;
}
