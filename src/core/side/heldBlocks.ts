/** The last seconds of what came in, in blocks of one length: a delay line between the finder's ear and the estimators. */
import type { StereoBlock } from '../capture/recording.ts';

interface Held {
  readonly left: Float64Array;
  readonly right: Float64Array;
  startFrame: number;
  frames: number;
}

export class HeldBlocks {
  private readonly size: number;
  private readonly ring: Held[];
  /** blocks ever begun, the open one included */
  private begun = 0;
  /** frames ever taken in */
  private taken = 0;

  /** @param size frames of a block @param most frames to hold, at least */
  constructor(size: number, most: number) {
    this.size = size;
    this.ring = Array.from({ length: Math.ceil(most / size) + 1 }, () => ({
      left: new Float64Array(size),
      right: new Float64Array(size),
      startFrame: 0,
      frames: 0,
    }));
  }

  /** one past the last frame held */
  get endFrame(): number {
    return this.taken;
  }

  /** the first frame that is still there */
  get firstFrame(): number {
    return Math.max(0, this.begun - this.ring.length) * this.size;
  }

  /**
   * Copies frames in.
   * @param onFull told of each block that is full; good until the ring comes round to it
   */
  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>, onFull: (block: StereoBlock) => void) {
    for (let at = 0; at < frames; ) {
      if (this.begun * this.size === this.taken) this.begin();
      const open = this.open();
      const take = Math.min(this.size - open.frames, frames - at);
      open.left.set(left.subarray(at, at + take), open.frames);
      open.right.set(right.subarray(at, at + take), open.frames);
      open.frames += take;
      this.taken += take;
      at += take;
      if (open.frames === this.size) onFull(open);
    }
  }

  /** The last block, where it is not full. */
  unfinished(): StereoBlock | null {
    return this.begun > 0 && this.open().frames < this.size ? this.open() : null;
  }

  private open(): Held {
    return this.ring[(this.begun - 1) % this.ring.length];
  }

  private begin(): void {
    this.begun += 1;
    const block = this.open();
    block.startFrame = this.taken;
    block.frames = 0;
  }

  /** Frames from one held to another, in blocks as they lie. @param fromFrame `firstFrame` up @param toFrame `endFrame` at most */
  *between(fromFrame: number, toFrame: number): Generator<StereoBlock, void, void> {
    for (let frame = fromFrame; frame < toFrame; ) {
      const number = Math.floor(frame / this.size);
      const { left, right, startFrame } = this.ring[number % this.ring.length];
      const from = frame - startFrame;
      const to = Math.min(this.size, toFrame - startFrame);
      yield { startFrame: frame, frames: to - from, left: left.subarray(from, to), right: right.subarray(from, to) };
      frame += to - from;
    }
  }
}
