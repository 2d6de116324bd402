/** What page, audio thread and measuring worker tell each other. */
import type { HumReading } from '../../core/live/humWatch.ts';
import type { NewestPeak } from '../../core/live/inputWatch.ts';
import type { EndedPass, LiveNow, LivePlaying } from '../../core/live/LiveSession.ts';
import type { RingMemory } from '../../core/live/sampleRing.ts';
import type { StripPoints } from '../../core/live/speedStrip.ts';
import type { ReadRequest } from '../audio/sideMessages.ts';

/** Which way the samples go from the audio thread to the worker. */
export type WorkletBegin =
  | { readonly kind: 'ring'; readonly memory: RingMemory }
  | { readonly kind: 'blocks'; readonly blocks: Float32Array<ArrayBuffer>[]; readonly port: MessagePort };

export interface LiveBegin extends Omit<ReadRequest, 'file'> {
  readonly kind: 'begin';
  readonly way:
    | { readonly kind: 'ring'; readonly memory: RingMemory }
    | { readonly kind: 'blocks'; readonly port: MessagePort };
  /** the input's name, as the document says it */
  readonly input: string;
  readonly sampleRateHz: number;
  /** as the browser says; null where it says nothing */
  readonly bitDepth: number | null;
  /** a recording's name without its number, e.g. of the job; null: passes are not recorded */
  readonly recordingName: string | null;
  /** written into each recording: how it was heard */
  readonly conditions: Readonly<Record<string, string | number | boolean | null>>;
}

/** `end-pass`: the pass that runs is over. `close`: so is the listening. */
export type LiveRequest = LiveBegin | { readonly kind: 'end-pass' } | { readonly kind: 'close' };

export interface LiveStatus extends LiveNow {
  /** of the last second */
  readonly hum: HumReading | null;
  /** of the tone that plays, since the status before */
  readonly strip: StripPoints | null;
  /** s of one turn of the record, as it is cut */
  readonly turnS: number;
  /** frames that were lost on the way; zeros stand for them */
  readonly lostFrames: number;
  /** channels of the source; 0 where none is connected */
  readonly sourceChannels: number;
  /** s since the last frame came */
  readonly standsStillS: number;
  /** performance.timeOrigin + now() when it was sent, ms */
  readonly sentAt: number;
  /** s that waited in front of the worker when this was made */
  readonly behindS: number;
}

/** The same on its way: figures, most of its bytes, travel only when they are worked out anew; null: as sent last. */
export interface SentStatus extends Omit<LiveStatus, 'playing'> {
  readonly playing:
    | (Omit<LivePlaying, 'figures'> & {
        readonly figures: LivePlaying['figures'] | null;
      })
    | null;
}

/** what the scope shows at once */
export const SCOPE_FRAMES = 2048;

/** Left and right in turn, the newest last: for the scope. */
export type ScopePoints = Float32Array<ArrayBuffer>;

export type LiveReply =
  | { readonly kind: 'now'; readonly status: SentStatus }
  /** as often as it moves, as often as the worker looks: for the bars */
  | { readonly kind: 'level'; readonly peak: NewestPeak }
  /** only where the page cannot look into the ring */
  | { readonly kind: 'scope'; readonly points: ScopePoints }
  | {
      readonly kind: 'pass';
      readonly pass: EndedPass;
      /** null where it could not be kept; `why` says so */
      readonly recording: File | null;
      readonly why: string;
    }
  | { readonly kind: 'closed' }
  | { readonly kind: 'failed'; readonly sentence: string };
