/**
 * Stereo frames from the audio thread by messages, where memory cannot be shared: a fixed number of blocks goes round. A full
 * one is handed over, the reader hands it back; none is made anew. Losses are owed as zeros, as in the ring.
 *
 * @checked sampleRing.test.ts
 */

/** One block on its way: left and right in turn. */
export interface FullBlock {
  readonly samples: Float32Array<ArrayBuffer>;
  /** frames lost since the beginning, so far */
  readonly lost: number;
  /** as in the ring */
  readonly channels: number;
}

export const BLOCK_FRAMES = 1024;

/** Blocks that hold so many seconds. */
export function freshBlocks(sampleRateHz: number, seconds: number): Float32Array<ArrayBuffer>[] {
  return Array.from(
    { length: Math.ceil((sampleRateHz * seconds) / BLOCK_FRAMES) },
    () => new Float32Array(2 * BLOCK_FRAMES),
  );
}

/** The audio thread's end. */
export class BlockWriter {
  readonly #free: Float32Array<ArrayBuffer>[];
  readonly #send: (block: FullBlock) => void;
  #open: Float32Array<ArrayBuffer> | null = null;
  #filled = 0;
  #owed = 0;
  #lost = 0;
  #channels = 0;

  /** @param send hands a full block over; its memory goes with it */
  constructor(blocks: readonly Float32Array<ArrayBuffer>[], send: (block: FullBlock) => void) {
    this.#free = [...blocks];
    this.#send = send;
  }

  /** A block that the reader is done with. */
  giveBack(block: Float32Array<ArrayBuffer>): void {
    this.#free.push(block);
  }

  /** frames that find a place now */
  get room(): number {
    return BLOCK_FRAMES * (this.#free.length + (this.#open === null ? 0 : 1)) - this.#filled;
  }

  /** As `RingWriter.write`. */
  write(left: Float32Array | null, right: Float32Array | null, frames: number): void {
    this.#channels = left === null ? 0 : right === null ? 1 : 2;
    while (this.#owed > 0 && this.#put(null, null, 0)) this.#owed -= 1;
    const second = right ?? left;
    for (let i = 0; i < frames; i++) {
      if (this.#owed === 0 && this.#put(left, second, i)) continue;
      this.lose(frames - i);
      return;
    }
  }

  lose(frames: number): void {
    this.#owed += frames;
    this.#lost += frames;
  }

  /** @returns false where there is no block to write into */
  #put(left: Float32Array | null, right: Float32Array | null, i: number): boolean {
    this.#open ??= this.#free.pop() ?? null;
    if (this.#open === null) return false;
    this.#open[2 * this.#filled] = left === null ? 0 : left[i];
    this.#open[2 * this.#filled + 1] = right === null ? 0 : right[i];
    this.#filled += 1;
    if (this.#filled === BLOCK_FRAMES) {
      this.#send({ samples: this.#open, lost: this.#lost, channels: this.#channels });
      this.#open = null;
      this.#filled = 0;
    }
    return true;
  }
}
