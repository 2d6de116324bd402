/** Everything a recording holds, as integers of its own depth (or as it is, for floats). */
import type { FrameRange, Recording } from '../../src/core/capture/recording.ts';

export async function readAll(recording: Recording, scale: number, range?: FrameRange): Promise<number[]> {
  const samples: number[] = [];
  let expected = range?.fromFrame ?? 0;
  for await (const { startFrame, frames, left, right } of recording.blocks(range)) {
    if (startFrame !== expected) throw new Error(`block starts at ${startFrame}, expected ${expected}`);
    for (let i = 0; i < frames; i++) samples.push(left[i]! * scale, right[i]! * scale);
    expected += frames;
  }
  return samples;
}
