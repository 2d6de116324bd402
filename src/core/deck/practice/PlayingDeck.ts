/**
 * A deck that plays for as long as it is asked to, while somebody turns its screws: the same simulation as a recorded side, take
 * after take.
 *
 * What a hand may change while the record turns (speed, earths, gain) changes in step: the new take begins at the groove time
 * where the old one is, and both are faded into each other over 10 ms. For everything else the arm goes up, as at the bench, and
 * the tip is set down again at the first band once nothing was moved for `PAUSE_S`.
 *
 * @checked practice.test.ts
 */
import type { DeckFile } from '../deck.ts';
import { type Simulation, simulationOf } from '../simulate.ts';
import { grooveTime, timesOf } from '../speed.ts';
import { captureStart, prepareTake, type SimulateOptions, type Take } from '../take.ts';

/** s that the arm stays up after the last move, and after a side that is over */
const PAUSE_S = 2.5;
const FADE_S = 0.01;
const BLOCK = 1024;
/** s of a take without a record; then it begins anew */
const AIR_S = 50;
/** s with the tip up before a take's first groove */
const BEFORE_DROP_S = 0.3;
/** s, of the mains: takes begin in step with its lines */
const MAINS_S = 0.02;
const SIDE = { beforeDropS: BEFORE_DROP_S, leadInS: 1.5, gapS: 1, leadOutS: 1.5, afterLiftS: 0.3 };

interface Voice {
  readonly take: Take;
  readonly isDown: boolean;
  readonly blocks: ReturnType<Simulation['blocks']>;
  block: { left: Float64Array; right: Float64Array; frames: number } | null;
  /** frames read of the block, and of the whole voice */
  at: number;
  played: number;
}

export interface PlayingState {
  readonly isDown: boolean;
  /** place in the record's bands; null between them and with the arm up */
  readonly band: number | null;
  /** s until the tip is set down; null where it stays up, or is down */
  readonly downInS: number | null;
}

export class PlayingDeck {
  readonly #record: unknown;
  readonly #options: SimulateOptions;
  #deck: DeckFile;
  #voice: Voice;
  #leaving: Voice | null = null;
  #faded = 0;
  #takes = 0;
  #frames = 0;
  #downAt: number | null;
  readonly #beside = { left: new Float64Array(BLOCK), right: new Float64Array(BLOCK) };

  /** Begins with the arm up. @param record a `*.record.json` document @throws RangeError naming what is wrong */
  constructor(record: unknown, deck: DeckFile, options: SimulateOptions) {
    this.#record = record;
    this.#options = options;
    this.#deck = deck;
    this.#voice = this.#air(0);
    this.#downAt = this.#in(PAUSE_S);
  }

  #in(seconds: number): number {
    return this.#frames + Math.round(seconds * this.#options.sampleRateHz);
  }

  #take(side: NonNullable<DeckFile['side']>): Take {
    const seed = (this.#options.seed + 7919 * this.#takes) % 2 ** 32;
    return prepareTake({ ...this.#deck, side: { ...SIDE, ...side } }, this.#record, { ...this.#options, seed });
  }

  #begin(take: Take, isDown: boolean): Voice {
    return { take, isDown, blocks: simulationOf(take).blocks(BLOCK), block: null, at: 0, played: 0 };
  }

  #air(fromS: number): Voice {
    return this.#begin(this.#take({ beforeDropS: 60, captureFromS: fromS % AIR_S, captureToS: AIR_S + 1 }), false);
  }

  /** s of its take that a voice has reached */
  #reached({ take, played }: Voice): number {
    return captureStart(take) + played / take.sampleRateHz;
  }

  #fadeTo(voice: Voice): void {
    this.#leaving = this.#voice;
    this.#faded = 0;
    this.#voice = voice;
  }

  #putDown(): void {
    this.#downAt = null;
    this.#takes += 1;
    const captureFromS = this.#reached(this.#voice) % MAINS_S;
    this.#fadeTo(this.#begin(this.#take({ captureFromS }), true));
  }

  /** The arm goes up and stays there. */
  lift(): void {
    this.#downAt = null;
    if (this.#voice.isDown) this.#fadeTo(this.#air(1 + (this.#reached(this.#voice) % MAINS_S)));
  }

  /** The tip comes down at the first band, from wherever it is. */
  setDown(): void {
    this.lift();
    this.#downAt = this.#in(PAUSE_S);
  }

  /** @param inStep the record goes on playing; else the arm goes up for it, and comes down later unless it was up to stay */
  change(deck: DeckFile, inStep: boolean): void {
    this.#deck = deck;
    const was = this.#voice;
    if (!inStep && was.isDown) {
      this.setDown();
      return;
    }
    if (this.#downAt !== null) this.#downAt = this.#in(PAUSE_S);
    const atS = this.#reached(was);
    if (!was.isDown) {
      this.#fadeTo(this.#air(atS));
      return;
    }
    const { tau } = grooveTime(was.take.speed)(atS);
    const whole = this.#take({});
    const [captureFromS] = timesOf(whole.speed, [tau]);
    const isOver = captureFromS > whole.edgesAtS[whole.edgesAtS.length - 1] - 0.1;
    if (!isOver) this.#fadeTo(this.#begin(this.#take({ captureFromS }), true));
  }

  /** The next frames, full scale ±1, written over both arrays from their start. */
  fill(left: Float64Array, right: Float64Array, frames: number): void {
    for (let at = 0; at < frames; ) {
      if (this.#downAt !== null && this.#frames >= this.#downAt) this.#putDown();
      const until = this.#downAt === null ? frames : Math.min(frames, at + this.#downAt - this.#frames);
      const count = Math.min(BLOCK, until - at);
      this.#read(this.#voice, left.subarray(at, at + count), right.subarray(at, at + count));
      this.#fade(left, right, at, count);
      at += count;
      this.#frames += count;
    }
  }

  #fade(left: Float64Array, right: Float64Array, at: number, count: number): void {
    const leaving = this.#leaving;
    if (leaving === null) return;
    const whole = FADE_S * this.#options.sampleRateHz;
    const beside = { left: this.#beside.left.subarray(0, count), right: this.#beside.right.subarray(0, count) };
    this.#read(leaving, beside.left, beside.right);
    for (let i = 0; i < count; i++) {
      const share = Math.min(1, (this.#faded + i) / whole);
      left[at + i] = share * left[at + i] + (1 - share) * beside.left[i];
      right[at + i] = share * right[at + i] + (1 - share) * beside.right[i];
    }
    this.#faded += count;
    if (this.#faded >= whole) this.#leaving = null;
  }

  /** All that is asked for: where a side is over the arm is up, and after a while the tip comes down again. */
  #read(voice: Voice, left: Float64Array, right: Float64Array): void {
    for (let at = 0; at < left.length; ) {
      if (voice.block === null || voice.at === voice.block.frames) {
        const next = voice.blocks.next();
        if (next.done === true) {
          this.#afterwards(voice, left.subarray(at), right.subarray(at));
          return;
        }
        voice.block = next.value;
        voice.at = 0;
      }
      const { block } = voice;
      const count = Math.min(left.length - at, block.frames - voice.at);
      left.set(block.left.subarray(voice.at, voice.at + count), at);
      right.set(block.right.subarray(voice.at, voice.at + count), at);
      voice.at += count;
      voice.played += count;
      at += count;
    }
  }

  #afterwards(over: Voice, left: Float64Array, right: Float64Array): void {
    if (over !== this.#voice) {
      left.fill(0);
      right.fill(0);
      return;
    }
    if (over.isDown) this.#downAt = this.#in(PAUSE_S);
    this.#voice = this.#air(1 + (this.#reached(over) % MAINS_S));
    this.#read(this.#voice, left, right);
  }

  get state(): PlayingState {
    const { take, isDown } = this.#voice;
    const atS = this.#reached(this.#voice);
    const stretch = isDown ? take.side.stretches[take.edgesAtS.findLastIndex((edge) => edge <= atS)] : undefined;
    const isAir = stretch === undefined || stretch.kind === 'air' || stretch.kind === 'lifted';
    return {
      isDown: isDown && !isAir,
      band: stretch === undefined || stretch.band < 0 ? null : stretch.band,
      downInS: this.#downAt === null ? null : (this.#downAt - this.#frames) / this.#options.sampleRateHz,
    };
  }
}
