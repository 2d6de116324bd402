/**
 * One band of a live input, from when it is heard to when it is read: what is to be listened to, and how far it was.
 *
 * The estimators hear it a delay later than the finder does, so that its end, its kind and what is spoiled of it are known
 * before they are given the frames.
 */
import type { Spoiled } from '../capture/sampleInspector.ts';
import type { SideKnown } from '../measure/bandEstimator.ts';
import { PassageReader, passageTask, type Readings } from '../measure/estimators.ts';
import { SPOILED_MARGIN_S } from '../measure/trusted.ts';
import type { Band } from '../record/band.ts';
import type { LateBand } from '../record/bandFinder.ts';
import type { Steps } from '../signal/steps.ts';
import type { HeldBlocks } from './heldBlocks.ts';

/** A clean stretch of a band that was listened to from end to end. */
export interface ReadPiece {
  readonly startS: number;
  readonly endS: number;
  readonly readings: Readings;
}

/** starts that lie within this are one, s; tones whose frequencies lie within this share are one */
const SAME_START_S = 0.25;
const SAME_HZ = 0.04;
/** s; a piece of such a length is read one step at a time, a shorter one several at once: they take less */
const STEPS_TOGETHER_S = 30;

export const drivenBy = ({ motion }: Pick<Band, 'motion'>): string =>
  motion === 'lateral' || motion === 'vertical' ? 'both' : motion;

/** Heard as the same kind of sound: what would be listened to in the same way. */
export const soundsAlike = (a: Omit<Band, 'index'>, b: Omit<Band, 'index'>): boolean =>
  a.signal === b.signal &&
  drivenBy(a) === drivenBy(b) &&
  (a.frequencyHz === null || b.frequencyHz === null || Math.abs(a.frequencyHz / b.frequencyHz - 1) < SAME_HZ);

export class Follower {
  /** as heard last */
  band: Omit<Band, 'index'>;
  isPlaying = true;
  /** times in a row that the finder did not hear it */
  unheard = 0;
  readonly pieces: ReadPiece[] = [];
  /** pieces that are still to be read, taken by whoever drives it */
  private closing: Steps<void>[] = [];
  private closed = 0;
  private reader: PassageReader | null = null;
  private pieceFrom = 0;
  private fedTo: number;
  private readonly sampleRateHz: number;

  constructor(band: Omit<Band, 'index'>, sampleRateHz: number) {
    this.band = band;
    this.sampleRateHz = sampleRateHz;
    this.fedTo = Math.round(band.startS * sampleRateHz);
  }

  get hasBegun(): boolean {
    return this.reader !== null || this.closed > 0;
  }

  get fedToS(): number {
    return this.fedTo / this.sampleRateHz;
  }

  isHeardAs(late: LateBand): boolean {
    const sameStart = late.beganEarlier
      ? this.band.startS < late.band.startS + SAME_START_S
      : Math.abs(this.band.startS - late.band.startS) < SAME_START_S;
    return sameStart && soundsAlike(this.band, late.band);
  }

  hear({ band, isPlaying, beganEarlier }: LateBand): void {
    const startS = beganEarlier || this.hasBegun ? this.band.startS : band.startS;
    this.band = { ...band, startS };
    if (!this.hasBegun) this.fedTo = Math.round(startS * this.sampleRateHz);
    this.isPlaying = isPlaying;
    this.unheard = 0;
  }

  /**
   * Listens on, up to a frame at most.
   *
   * @param spoiled in order of time
   */
  feed(held: HeldBlocks, toFrame: number, spoiled: readonly Spoiled[], known: () => SideKnown): void {
    const limit = this.isPlaying ? toFrame : Math.min(toFrame, Math.round(this.band.endS * this.sampleRateHz));
    const frameOf = (s: number): number => Math.round(s * this.sampleRateHz);
    while (this.fedTo < limit) {
      const next = spoiled.find(({ endS }) => frameOf(endS + SPOILED_MARGIN_S) > this.fedTo);
      const cleanTo = next === undefined ? limit : Math.min(limit, frameOf(next.startS - SPOILED_MARGIN_S));
      if (cleanTo > this.fedTo) this.listen(held, cleanTo, known);
      if (next === undefined || cleanTo === limit) continue;
      this.closePiece();
      this.fedTo = Math.max(this.fedTo, Math.min(limit, frameOf(next.endS + SPOILED_MARGIN_S)));
    }
  }

  private listen(held: HeldBlocks, toFrame: number, known: () => SideKnown): void {
    if (this.reader === null) {
      this.pieceFrom = this.fedTo;
      this.reader = this.begin(known());
    }
    // what is no longer held cannot be heard: the band began longer ago than it took to tell it
    if (this.fedTo < held.firstFrame) {
      this.pieceFrom = held.firstFrame;
      this.fedTo = held.firstFrame;
    }
    for (const block of held.between(this.fedTo, toFrame)) this.reader.push(block);
    this.fedTo = Math.max(this.fedTo, toFrame);
  }

  /** When it will end nobody knows. */
  private begin(known: SideKnown): PassageReader {
    const band: Band = { ...this.band, endS: Number.POSITIVE_INFINITY, index: known.bands.length };
    const passage = { signal: band.signal, startS: this.fedToS, endS: band.endS, band };
    const side = { ...known, bands: [...known.bands, band] };
    const task = passageTask(passage, side, Number.POSITIVE_INFINITY);
    return new PassageReader(this.sampleRateHz, task ?? { estimators: [] });
  }

  /** What can be said of it by now. */
  running(): Readings {
    return this.reader?.running() ?? {};
  }

  /** Nothing more will come: what was heard is read in the steps of `closing`, the piece is there after the last. */
  closePiece(): void {
    const { reader, pieceFrom, fedToS } = this;
    if (reader === null) return;
    this.reader = null;
    this.closed += 1;
    this.closing.push(this.readPiece(reader, pieceFrom / this.sampleRateHz, fedToS));
  }

  private *readPiece(reader: PassageReader, startS: number, endS: number): Steps<void> {
    const steps = reader.finishing();
    const together = Math.max(1, Math.floor(STEPS_TOGETHER_S / (endS - startS)));
    for (let n = 1; ; n++) {
      const { done, value } = steps.next();
      if (done === true) {
        this.pieces.push({ startS, endS, readings: value });
        return;
      }
      if (n % together === 0) yield;
    }
  }

  /** Pieces to be read since this was asked last. */
  takeClosing(): readonly Steps<void>[] {
    const taken = this.closing;
    this.closing = [];
    return taken;
  }

  /** What was heard before is another sound than what comes: no reading is made of it. @param fromS still held */
  readAgainFrom(fromS: number): void {
    this.drop();
    this.closing = [];
    this.pieces.length = 0;
    this.fedTo = Math.round(fromS * this.sampleRateHz);
    // its start is no more told anew
    this.closed += 1;
  }

  /** It was no band after all. */
  drop(): void {
    this.reader?.end();
    this.reader = null;
  }
}
