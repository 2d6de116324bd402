import type { FrameRange } from './recording.ts';

/** Most frames that one block holds. */
export const MOST_FRAMES = 65_536;

/**
 * The stretch asked for, or everything.
 *
 * @throws RangeError unless 0 ≤ fromFrame ≤ toFrame ≤ frames, whole numbers
 */
export function checkedRange(frames: number, range?: FrameRange): FrameRange {
  const { fromFrame, toFrame } = range ?? { fromFrame: 0, toFrame: frames };
  if (!(Number.isInteger(fromFrame) && 0 <= fromFrame && fromFrame <= frames)) {
    throw new RangeError(`fromFrame = ${fromFrame} must be a whole number from 0 to ${frames}`);
  }
  if (!(Number.isInteger(toFrame) && fromFrame <= toFrame && toFrame <= frames)) {
    throw new RangeError(`toFrame = ${toFrame} must be a whole number from fromFrame = ${fromFrame} to ${frames}`);
  }
  return { fromFrame, toFrame };
}
