/** A WAV, RF64 or BW64 file as blocks of samples. */
import { lentArray, lentBytes, takeBack } from '../signal/workArrays.ts';
import { readUpTo } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import { decodeSamples } from './decodeSamples.ts';
import { checkedRange, MOST_FRAMES } from './frameRange.ts';
import type { ByteSource, FrameRange, StereoBlock } from './recording.ts';
import type { WaveFile } from './waveFile.ts';

/** Largest piece read at once, bytes; many-channel files get shorter blocks instead of larger pieces. */
const MOST_BYTES = 2 ** 21;

/**
 * Blocks in order. Two buffers take turns, so that the next piece is on its way while a block is worked on; memory does
 * not grow with the file.
 */
export async function* waveBlocks(
  source: ByteSource,
  wave: WaveFile,
  range?: FrameRange,
): AsyncGenerator<StereoBlock, void, void> {
  const { fromFrame, toFrame } = checkedRange(wave.frames, range);
  const { code, channels, frameBytes } = wave.format;
  const most = Math.max(1, Math.min(MOST_FRAMES, Math.floor(MOST_BYTES / frameBytes), toFrame - fromFrame));
  const buffers = [lentBytes(most * frameBytes), lentBytes(most * frameBytes)] as const;
  const left = lentArray(most);
  const right = lentArray(most);
  const request = (frame: number, turn: number): Promise<Uint8Array> | null => {
    if (frame >= toFrame) return null;
    const length = Math.min(most, toFrame - frame) * frameBytes;
    const pending = readUpTo(source, wave.dataStart + frame * frameBytes, length, buffers[turn]);
    // a reader that stops early leaves the last piece unclaimed; its failure then concerns nobody
    pending.catch(() => undefined);
    return pending;
  };
  let turn = 0;
  let pending = request(fromFrame, turn);
  try {
    for (let frame = fromFrame; pending !== null; ) {
      const bytes: Uint8Array = await pending;
      const frames = Math.min(most, toFrame - frame);
      if (bytes.length < frames * frameBytes) {
        const offset = wave.dataStart + frame * frameBytes + bytes.length;
        const expected = wave.dataStart + toFrame * frameBytes;
        const what = `it ended at byte ${offset}, where ${expected} bytes were expected`;
        throw new CaptureError('changed-while-read', { file: source.name, what });
      }
      turn = 1 - turn;
      pending = request(frame + frames, turn);
      const replaced = decodeSamples(bytes, code, channels, frameBytes, frames, left, right);
      yield replaced > 0
        ? { startFrame: frame, frames, left, right, replaced }
        : { startFrame: frame, frames, left, right };
      frame += frames;
    }
  } finally {
    takeBack(left);
    takeBack(right);
    // a piece that is still on its way may yet be written
    if (pending === null) buffers.forEach(takeBack);
  }
}
