/**
 * Stereo frames from the audio thread to the thread that measures, through shared memory: one writes, one reads, nobody waits.
 *
 * Frames that found no room, or that the audio thread was never given, are owed: as many zeros take their place once there is
 * room. So time stays right, what is recorded shows the gap, and the sample inspector names it.
 *
 * @checked sampleRing.test.ts
 */

/** What both ends share. */
export interface RingMemory {
  /** `CONTROL_WORDS` counters */
  readonly control: SharedArrayBuffer | ArrayBuffer;
  /** left and right in turn, `capacity` frames of them */
  readonly samples: SharedArrayBuffer | ArrayBuffer;
}

/** Counters wrap at 2³²; 2³² frames are 12 h at 96 kHz, and only differences count. */
const WRITTEN = 0;
const READ = 1;
const LOST = 2;
const CHANNELS = 3;
const CONTROL_WORDS = 4;

/** Frames of memory: the next power of two that holds so many seconds. */
export const ringFrames = (sampleRateHz: number, seconds: number): number =>
  2 ** Math.ceil(Math.log2(sampleRateHz * seconds));

/** @param frames a power of two @param Memory `SharedArrayBuffer` between threads */
export function ringMemory(
  frames: number,
  Memory: new (bytes: number) => SharedArrayBuffer | ArrayBuffer = SharedArrayBuffer,
): RingMemory {
  if (!(frames >= 2 && Number.isInteger(Math.log2(frames)))) {
    throw new RangeError(`frames: ${frames} given, expected a power of two`);
  }
  return {
    control: new Memory(CONTROL_WORDS * Int32Array.BYTES_PER_ELEMENT),
    samples: new Memory(2 * frames * Float32Array.BYTES_PER_ELEMENT),
  };
}

/** The audio thread's end. Allocates nothing after construction. */
export class RingWriter {
  readonly #control: Int32Array;
  readonly #samples: Float32Array;
  readonly #mask: number;
  /** frames for which zeros are still to be written */
  #owed = 0;
  #written = 0;

  constructor({ control, samples }: RingMemory) {
    this.#control = new Int32Array(control);
    this.#samples = new Float32Array(samples);
    this.#mask = this.#samples.length / 2 - 1;
  }

  /**
   * @param left null where no source is connected: zeros
   * @param right null where the source has one channel: left again, so that both are alike
   */
  write(left: Float32Array | null, right: Float32Array | null, frames: number): void {
    const { room } = this;
    if (this.#owed > 0) this.#payZeros(room);
    if (this.#owed > 0 || this.room < frames) {
      this.lose(frames);
      return;
    }
    const second = right ?? left;
    for (let i = 0; i < frames; i++) {
      const at = 2 * ((this.#written + i) & this.#mask);
      this.#samples[at] = left === null ? 0 : left[i];
      this.#samples[at + 1] = second === null ? 0 : second[i];
    }
    this.#advance(frames);
    const channels = left === null ? 0 : right === null ? 1 : 2;
    if (Atomics.load(this.#control, CHANNELS) !== channels) Atomics.store(this.#control, CHANNELS, channels);
  }

  /** Frames that are gone: they did not come, or there was no room. */
  lose(frames: number): void {
    this.#owed += frames;
    Atomics.add(this.#control, LOST, frames);
  }

  /** frames that find a place now */
  get room(): number {
    return this.#mask + 1 - ((this.#written - Atomics.load(this.#control, READ)) >>> 0);
  }

  #payZeros(room: number): void {
    const pay = Math.min(this.#owed, room);
    for (let i = 0; i < pay; i++) {
      const at = 2 * ((this.#written + i) & this.#mask);
      this.#samples[at] = 0;
      this.#samples[at + 1] = 0;
    }
    this.#owed -= pay;
    this.#advance(pay);
  }

  #advance(frames: number): void {
    this.#written = (this.#written + frames) >>> 0;
    // what is written is seen before the count that says so
    Atomics.store(this.#control, WRITTEN, this.#written | 0);
  }
}

/** An end that reads. */
class RingEnd {
  protected readonly control: Int32Array;
  protected readonly samples: Float32Array;
  protected readonly mask: number;

  constructor({ control, samples }: RingMemory) {
    this.control = new Int32Array(control);
    this.samples = new Float32Array(samples);
    this.mask = this.samples.length / 2 - 1;
  }
}

/** The measuring thread's end. */
export class RingReader extends RingEnd {
  /** frames that wait */
  get waiting(): number {
    return (Atomics.load(this.control, WRITTEN) - Atomics.load(this.control, READ)) >>> 0;
  }

  /** frames lost since the beginning; zeros took their place */
  get lost(): number {
    return Atomics.load(this.control, LOST) >>> 0;
  }

  /** channels that the source last had; 0 where none is connected */
  get channels(): number {
    return Atomics.load(this.control, CHANNELS);
  }

  /** Takes what waits, as much as the arrays hold. @returns frames taken */
  read(left: Float64Array, right: Float64Array): number {
    const from = Atomics.load(this.control, READ) >>> 0;
    const frames = Math.min(this.waiting, left.length, right.length);
    for (let i = 0; i < frames; i++) {
      const at = 2 * ((from + i) & this.mask);
      left[i] = this.samples[at];
      right[i] = this.samples[at + 1];
    }
    Atomics.store(this.control, READ, (from + frames) | 0);
    return frames;
  }
}

/** Looks on: the newest frames, without taking them. What is drawn 60 times a second needs no message. */
export class RingTap extends RingEnd {
  /** counts the frames ever written, modulo 2³² */
  get written(): number {
    return Atomics.load(this.control, WRITTEN) >>> 0;
  }

  /** Fills with left and right in turn, the newest last. @param into of fewer frames than half the ring */
  latest(into: Float32Array): void {
    const frames = into.length / 2;
    const from = (this.written - frames) >>> 0;
    for (let i = 0; i < frames; i++) {
      const at = 2 * ((from + i) & this.mask);
      into[2 * i] = this.samples[at];
      into[2 * i + 1] = this.samples[at + 1];
    }
  }
}
