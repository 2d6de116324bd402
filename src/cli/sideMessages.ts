/** What the two threads of `measure` say to each other: plain data. */
import type { ListenedPart } from '../core/advise/listen.ts';
import type { FrameRange } from '../core/capture/recording.ts';
import type { ToneTask } from '../core/measure/measureSide.ts';
import type { ToneReading } from '../core/measure/toneEstimator.ts';

export type ThreadRequest =
  | { readonly kind: 'listen'; readonly range: FrameRange }
  | { readonly kind: 'read'; readonly index: number; readonly task: ToneTask };

export type ThreadReply =
  /** done since the last time this was told */
  | { readonly kind: 'frames'; readonly frames: number }
  | { readonly kind: 'part'; readonly part: ListenedPart }
  | { readonly kind: 'tone'; readonly index: number; readonly reading: ToneReading }
  | { readonly kind: 'failed'; readonly message: string; readonly ofCapture: boolean };
