/** What the page and the worker that plays the practice deck live tell each other. */
import type { DeckFile } from '../../core/deck/deck.ts';
import type { PlayingState } from '../../core/deck/practice/PlayingDeck.ts';
import type { PracticeSide } from '../../core/deck/practice/practiceSides.ts';
import type { RingMemory } from '../../core/live/sampleRing.ts';

export interface DeckBegin {
  readonly kind: 'begin';
  readonly way:
    | { readonly kind: 'ring'; readonly memory: RingMemory }
    | { readonly kind: 'blocks'; readonly port: MessagePort };
  readonly side: PracticeSide;
  readonly deck: DeckFile;
  readonly seed: number;
  readonly sampleRateHz: number;
  readonly pace: number;
}

export type DeckRequest =
  | DeckBegin
  | { readonly kind: 'change'; readonly deck: DeckFile; readonly inStep: boolean }
  | { readonly kind: 'lift' }
  | { readonly kind: 'set-down' }
  /** times as fast as a real deck */
  | { readonly kind: 'pace'; readonly pace: number }
  /** sound for the loudspeakers too */
  | { readonly kind: 'hear'; readonly on: boolean };

export type DeckReply =
  | { readonly kind: 'state'; readonly state: PlayingState }
  | { readonly kind: 'sound'; readonly left: Float32Array<ArrayBuffer>; readonly right: Float32Array<ArrayBuffer> }
  | { readonly kind: 'failed'; readonly sentence: string };
