/** A file the person chose as a byte source: slices are read as they are needed, nothing is copied or sent. */
import { CaptureError } from '../core/capture/captureError.ts';
import type { ByteSource } from '../core/capture/recording.ts';

/** bytes asked of the browser at once: each request is a message to another process and back */
const PIECE = 2 * 1024 * 1024;

/** @throws CaptureError when the file on disk is no longer the one that was chosen */
export function fileSource(file: File): ByteSource {
  const pieces = new Map<number, Promise<Uint8Array>>();
  const piece = (number: number): Promise<Uint8Array> => {
    const known = pieces.get(number);
    if (known !== undefined) return known;
    const reading = file
      .slice(number * PIECE, (number + 1) * PIECE)
      .arrayBuffer()
      .then((bytes) => new Uint8Array(bytes))
      .catch(() => {
        throw new CaptureError('changed-while-read', { file: file.name, what: 'it is no longer there as it was' });
      });
    // the piece that is read from and the one that is on its way
    for (const old of pieces.keys()) if (pieces.size > 1) pieces.delete(old);
    pieces.set(number, reading);
    return reading;
  };
  return {
    name: file.name,
    size: file.size,
    async read(offset, length, into) {
      const end = Math.min(file.size, offset + length);
      const first = Math.floor(offset / PIECE);
      const bytes = await piece(first);
      if ((first + 1) * PIECE < file.size && end > (first + 0.5) * PIECE) piece(first + 1).catch(() => undefined);
      const from = offset - first * PIECE;
      if (end <= (first + 1) * PIECE) return bytes.subarray(from, Math.max(from, end - first * PIECE));
      const whole = into ?? new Uint8Array(end - offset);
      whole.set(bytes.subarray(from));
      let at = bytes.length - from;
      for (let number = first + 1; at < end - offset; number++) {
        const part = (await piece(number)).subarray(0, end - offset - at);
        whole.set(part, at);
        at += part.length;
      }
      return whole.subarray(0, end - offset);
    },
  };
}
