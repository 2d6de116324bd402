/** A file the person chose as a byte source: its bytes are asked for as they are needed, nothing of it is sent. */
import { CaptureError } from '../core/capture/captureError.ts';
import type { ByteSource } from '../core/capture/recording.ts';

/** bytes taken over from the browser at once */
const PIECE = 2 ** 19;

/** The file's bytes from an offset on, in order: one question to the browser for all of them, where every slice would be one of its own. */
class FileRun {
  /** the offset of the next byte */
  at: number;
  private readonly reader: ReadableStreamBYOBReader;
  private memory = new Uint8Array(PIECE);

  constructor(file: File, at: number) {
    this.at = at;
    this.reader = file.slice(at).stream().getReader({ mode: 'byob' });
  }

  /** Fills `into`. @returns how many bytes there were */
  async fill(into: Uint8Array): Promise<number> {
    let filled = 0;
    while (filled < into.length) {
      // the memory goes to the browser and comes back with the bytes
      const { done, value } = await this.reader.read(this.memory.subarray(0, into.length - filled));
      if (done) break;
      into.set(value, filled);
      filled += value.length;
      this.memory = new Uint8Array(value.buffer);
    }
    this.at += filled;
    return filled;
  }

  end(): void {
    this.reader.cancel().catch(() => undefined);
  }
}

/** Whether this browser fills memory that is handed to it; one that does not is asked for slices. */
function canFill(file: File): boolean {
  try {
    file.slice(0, 0).stream().getReader({ mode: 'byob' });
    return true;
  } catch {
    return false;
  }
}

/** @throws CaptureError when the file on disk is no longer the one that was chosen */
export function fileSource(file: File): ByteSource {
  const inOrder = canFill(file);
  let run: FileRun | null = null;
  let last: Promise<unknown> = Promise.resolve();
  const readOn = async (offset: number, into: Uint8Array): Promise<Uint8Array> => {
    if (run?.at !== offset) {
      run?.end();
      run = new FileRun(file, offset);
    }
    return into.subarray(0, await run.fill(into));
  };
  const readSlice = async (offset: number, length: number): Promise<Uint8Array> =>
    new Uint8Array(await file.slice(offset, offset + length).arrayBuffer());
  return {
    name: file.name,
    size: file.size,
    read(offset, length, into) {
      const wanted = Math.max(0, Math.min(length, file.size - offset));
      const next = last.then(() =>
        inOrder ? readOn(offset, into?.subarray(0, wanted) ?? new Uint8Array(wanted)) : readSlice(offset, wanted),
      );
      last = next.catch(() => undefined);
      return next.catch(() => {
        throw new CaptureError('changed-while-read', { file: file.name, what: 'it is no longer there as it was' });
      });
    },
  };
}
