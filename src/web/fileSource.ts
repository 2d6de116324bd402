/** A file the person chose as a byte source: its bytes are asked for as they are needed, nothing of it is sent. */
import { CaptureError } from '../core/capture/captureError.ts';
import type { ByteSource } from '../core/capture/recording.ts';
import { FileStreams } from './fileStreams.ts';

/** The file's bytes from an offset on, in order: one question to the browser for all of them, where every slice would be one of its own. */
class FileRun {
  /** the offset of the next byte */
  at: number;
  private readonly streams: FileStreams;
  /** what came and was not asked for yet */
  private rest: Uint8Array = new Uint8Array(0);

  constructor(streams: FileStreams, at: number) {
    this.streams = streams;
    this.at = at;
    streams.open(at);
  }

  /** Fills `into`. @returns how many bytes there were */
  async fill(into: Uint8Array): Promise<number> {
    let filled = 0;
    while (filled < into.length) {
      if (this.rest.length === 0) {
        const piece = await this.streams.next(this.at);
        if (piece === null) break;
        this.rest = piece;
      }
      const part = this.rest.subarray(0, into.length - filled);
      into.set(part, filled);
      filled += part.length;
      this.at += part.length;
      this.rest = this.rest.subarray(part.length);
    }
    return filled;
  }
}

/** @throws CaptureError when the file on disk is no longer the one that was chosen */
export function fileSource(file: File): ByteSource {
  const streams = new FileStreams(file);
  let run: FileRun | null = null;
  let last: Promise<unknown> = Promise.resolve();
  const readOn = async (offset: number, into: Uint8Array): Promise<Uint8Array> => {
    if (run?.at !== offset) run = new FileRun(streams, offset);
    return into.subarray(0, await run.fill(into));
  };
  return {
    name: file.name,
    size: file.size,
    read(offset, length, into) {
      const wanted = Math.max(0, Math.min(length, file.size - offset));
      const next = last.then(() => readOn(offset, into?.subarray(0, wanted) ?? new Uint8Array(wanted)));
      last = next.catch(() => undefined);
      return next.catch(() => {
        throw new CaptureError('changed-while-read', { file: file.name, what: 'it is no longer there as it was' });
      });
    },
  };
}
