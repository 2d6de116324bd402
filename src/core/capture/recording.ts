/**
 * What a checked recording looks like to everything above `capture`: a format, the problems found, and its frames as
 * blocks in order. A file, a browser's `File` and a live input all arrive in this shape.
 */
import type { Problem } from './problem.ts';

/**
 * Random access to bytes that are only ever read. `read` may return fewer bytes than asked for at the end. A source may
 * fill `into` (at least `length` bytes long) and return its front instead of new memory.
 */
export interface ByteSource {
  readonly name: string;
  /** bytes */
  readonly size: number;
  read(offset: number, length: number, into?: Uint8Array): Promise<Uint8Array>;
}

export interface CaptureFormat {
  readonly file: string;
  readonly sampleRateHz: number;
  readonly channels: number;
  readonly bitDepth: number;
  readonly encoding: 'integer' | 'float';
  readonly container: 'wav' | 'rf64' | 'bw64' | 'flac' | 'live';
  /** frames really present, not what a header claims */
  readonly frames: number;
  readonly durationS: number;
}

/** Samples scaled so that digital full scale is ±1. The arrays are reused: copy what must outlive the call. */
export interface StereoBlock {
  /** index in the recording of the first frame */
  readonly startFrame: number;
  /** frames valid in `left` and `right`, counted from 0 */
  readonly frames: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** samples of this block that were no numbers in the source and were replaced by 0; absent means none */
  readonly replaced?: number;
}

export interface FrameRange {
  readonly fromFrame: number;
  /** one past the last frame */
  readonly toFrame: number;
}

export interface Recording {
  readonly format: CaptureFormat;
  /**
   * Found while opening. For FLAC a pass over everything may append to it (damaged frames, a checksum that differs), so
   * read it after the pass; what only samples show comes from `SampleInspector`.
   */
  readonly problems: readonly Problem[];
  /** blocks in order, each of at most 65536 frames; `range` defaults to everything */
  blocks(range?: FrameRange): AsyncGenerator<StereoBlock, void, void>;
}
