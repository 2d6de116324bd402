/**
 * Plays a side on a virtual deck: groove → tip → arm → cartridge → leads → preamplifier → converter, as a stream of
 * blocks whose memory does not grow with the side, and the truth about it.
 */
import { cartridgeChain } from './cartridge.ts';
import type { Deck, DeckFile } from './deck.ts';
import { preampChain } from './preamp.ts';
import type { SheetFile } from './sheet.ts';
import { CHUNK, latencyFrames, prepareTake, type SimulateOptions, type Take } from './take.ts';
import { tipMotion } from './tip.ts';
import { type Truth, truthOf } from './truth.ts';

export type { SimulateOptions } from './take.ts';

export interface CaptureBlock {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly frames: number;
}

export interface Simulation {
  /** worked out when it is first asked for */
  readonly truth: Truth;
  readonly deck: Deck;
  readonly frames: number;
  readonly sampleRateHz: number;
  /**
   * The capture from its first frame, full scale ±1, already rounded to the converter's steps. Every call starts anew; the
   * arrays are used again for the next block.
   * @param blockFrames frames in each block but the last, default 16384
   */
  blocks(blockFrames?: number): Generator<CaptureBlock, void, void>;
}

/**
 * @param deckFile faults, as in `*.deck.json`
 * @param sheetFile what is cut, as in `*.record.json`
 * @throws RangeError naming what is wrong with the deck, the sheet or the options
 */
export function simulateSide(
  deckFile: DeckFile | unknown,
  sheetFile: SheetFile | unknown,
  options: SimulateOptions,
): Simulation {
  return simulationOf(prepareTake(deckFile, sheetFile, options));
}

/** The same of a take that was prepared before. */
export function simulationOf(take: Take): Simulation {
  const { deck, frames, sampleRateHz } = take;
  let truth: Truth | null = null;
  return {
    get truth() {
      truth ??= truthOf(take);
      return truth;
    },
    deck,
    frames,
    sampleRateHz,
    *blocks(blockFrames = 16384) {
      if (!(Number.isInteger(blockFrames) && blockFrames >= 1)) {
        throw new RangeError(`blockFrames: ${blockFrames} given, expected an integer of 1 or more`);
      }
      const left = new Float64Array(blockFrames);
      const right = new Float64Array(blockFrames);
      const play = player(take);
      let filled = 0;
      for (let done = 0; done < frames; ) {
        const { left: l, right: r, from, to } = play();
        for (let i = from; i < to && done < frames; i++) {
          left[filled] = l[i];
          right[filled] = r[i];
          done++;
          if (++filled === blockFrames) {
            yield { left, right, frames: filled };
            filled = 0;
          }
        }
      }
      if (filled > 0) yield { left, right, frames: filled };
    },
  };
}

/** One chunk of finished samples; frames `from` up to `to` are valid. */
interface Chunk {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly from: number;
  readonly to: number;
}

function player(take: Take): () => Chunk {
  const groove = tipMotion(take);
  const cartridge = cartridgeChain(take);
  const preamp = preampChain(take);
  const left = new Float64Array(CHUNK);
  const right = new Float64Array(CHUNK);
  // The filters are late by their delay: with that much dropped what remains is in step with the groove's clock.
  let toDrop = latencyFrames(take.sampleRateHz) + take.prerollFrames;
  return () => {
    groove(left, right);
    cartridge(left, right);
    preamp(left, right);
    const from = Math.min(CHUNK, toDrop);
    toDrop -= from;
    return { left, right, from, to: CHUNK };
  };
}
