/**
 * What a checked recording looks like to everything above `capture`: a format, the problems found, and its frames as
 * blocks in order. A file, a browser's `File` and a live input all arrive in this shape.
 */
import type { Problem } from './problem.ts';

/** Random access to bytes that are only ever read. `read` may return fewer bytes than asked for at the end. */
export interface ByteSource {
  readonly name: string;
  /** bytes */
  readonly size: number;
  read(offset: number, length: number): Promise<Uint8Array>;
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
}

export interface FrameRange {
  readonly fromFrame: number;
  /** one past the last frame */
  readonly toFrame: number;
}

export interface Recording {
  readonly format: CaptureFormat;
  /** found while opening; a full pass adds what only the samples show */
  readonly problems: readonly Problem[];
  /** blocks in order, each of at most 65536 frames; `range` defaults to everything */
  blocks(range?: FrameRange): AsyncGenerator<StereoBlock, void, void>;
}
