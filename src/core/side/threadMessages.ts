/** What is said between the thread that a side is asked of and those that go over its samples: plain data. */
import type { CaptureFormat, FrameRange } from '../capture/recording.ts';

import type { PassageTask, Readings } from '../measure/estimators.ts';
import type { ProblemCode } from '../words/problems.ts';
import type { Heard, ListenedPart } from './listen.ts';

export type ThreadRequest =
  | { readonly kind: 'listen'; readonly range: FrameRange }
  | { readonly kind: 'join'; readonly format: CaptureFormat; readonly parts: readonly ListenedPart[] }
  | { readonly kind: 'read'; readonly index: number; readonly task: PassageTask };

export interface ThreadFailure {
  readonly kind: 'failed';
  readonly message: string;
  /** where it is about the recording, as against about the program */
  readonly code: ProblemCode | null;
}

export type ThreadReply =
  /** done since the last time this was told */
  | { readonly kind: 'frames'; readonly frames: number }
  | { readonly kind: 'part'; readonly part: ListenedPart }
  | { readonly kind: 'heard'; readonly heard: Heard }
  | { readonly kind: 'readings'; readonly index: number; readonly readings: Readings }
  | ThreadFailure;

/** The memory of every array in plain data, to be handed over with it instead of copied. */
export function memoryIn(data: unknown): ArrayBuffer[] {
  const memory = new Set<ArrayBuffer>();
  const look = (value: unknown): void => {
    if (ArrayBuffer.isView(value)) memory.add(value.buffer as ArrayBuffer);
    else if (typeof value === 'object' && value !== null) Object.values(value).forEach(look);
  };
  look(data);
  return [...memory];
}
