/**
 * The finder's ear: a capture in blocks → a few numbers for each hop of 2048 frames at 44.1 to 88 kHz (23 to 46 ms).
 *
 * Two complex transforms a hop give both channels and their cross spectrum: one of the hop itself for 400 Hz and up, one
 * of 512 frames at 1/32 of that rate (341 ms at 48 kHz, centred on the same moment) for what lies below, where hum and a
 * tone must be told apart. Kept of each hop: its lines (at most 5 + 8, 24 bytes each) and, for ten octaves, the power
 * of left, right, their cross product and the noise floor between lines (160 bytes). That is about 300 bytes a hop, or
 * 10 MB for 25 minutes; of longer captures the rest goes to the shelf (shelf.ts), where there is one.
 */
import { FloorHistory, type FloorPart } from './floorHistory.ts';
import { HalfRate } from './halfRate.ts';
import { LineFinder } from './lineFinder.ts';
import { LineStore, type LinesPart } from './lineStore.ts';
import { OCTAVES, type OctaveRange, octaveRanges } from './octaveRanges.ts';
import { OctaveStore, type OctavesPart } from './octaveStore.ts';
import { type Shelf, Shelves } from './shelf.ts';
import { SLOW_SIZE, SlowWindow } from './slowWindow.ts';
import { StereoSpectrum } from './stereoSpectrum.ts';

export const HOP = 2048;
/** frames halved at a time; a multiple of every ratio */
const CHUNK = 4096;
/** lines above come from the hop's own spectrum, lines below from the slow one; within 5 % both may tell */
export const CROSSOVER_HZ = 420;
const LEAST_HZ = 14;
const MOST_HZ = 21_600;
const FIRST_MAIN_OCTAVE = 4;

/** Mean squares of one hop without its mean, for the level trace. */
export interface HopLevel {
  readonly frames: number;
  readonly left: number;
  readonly right: number;
}

/** Hops of a capture that an ear keeps, counted from the first one that it is given. */
export interface KeptHops {
  readonly from: number;
  /** one past the last */
  readonly to: number;
}

/** What an ear keeps of a stretch of hops: plain data, to be joined with its neighbours. */
export interface HopsPart {
  readonly mainLines: LinesPart;
  readonly lowLines: LinesPart;
  readonly mainFloor: FloorPart;
  readonly lowFloor: FloorPart;
  readonly octaves: readonly OctavesPart[];
}

/**
 * Hops that an ear must be given before those it keeps, and after them: the slow spectrum reaches four and a half to either
 * side, its filters a third of one further.
 */
export const HOPS_AROUND = 6;

/** frames that come in for one that is looked at: 1, 2, 4 … */
const ratioOf = (sampleRateHz: number): number => 2 ** Math.max(0, Math.floor(Math.log2(sampleRateHz / 44_000)));

/** Frames of the capture that make a hop. */
export const hopFrames = (sampleRateHz: number): number => HOP * ratioOf(sampleRateHz);

export class HopSpectra {
  readonly sampleRateHz: number;
  /** frames that come in for one that is looked at: 1, 2, 4 … */
  readonly ratio: number;
  /** Hz */
  readonly rateHz: number;
  readonly mainLines: LineStore;
  readonly lowLines: LineStore;
  readonly lowFloor: FloorHistory;
  readonly mainFloor: FloorHistory;
  readonly lowBinHz: number;
  readonly mainBinHz: number;

  private readonly halves: HalfRate[];
  private readonly delayFrames: number;
  private readonly spareL = new Float64Array(CHUNK);
  private readonly spareR = new Float64Array(CHUNK);
  private readonly heldL: Float64Array;
  private readonly heldR: Float64Array;
  private heldFrames = 0;
  private readonly main = new StereoSpectrum(HOP);
  private readonly low = new StereoSpectrum(SLOW_SIZE);
  private readonly mainFinder: LineFinder;
  private readonly lowFinder: LineFinder;
  private readonly slow: SlowWindow;
  private readonly frameL: Float64Array;
  private readonly frameR: Float64Array;
  private filled = 0;
  private readonly octaves: OctaveStore;
  private readonly mainOctaves: readonly OctaveRange[];
  private readonly lowOctaves: readonly OctaveRange[];
  private hopsDone = 0;
  private lowHopsDone = 0;
  private readonly kept: KeptHops;
  private framesIn = 0;
  private readonly onHop: (level: HopLevel) => void;

  /** @param kept hops to keep; everything unless told otherwise @param shelf null: all stays in memory */
  constructor(
    sampleRateHz: number,
    onHop: (level: HopLevel) => void,
    kept: KeptHops = { from: 0, to: Number.POSITIVE_INFINITY },
    shelf: Shelf | null = null,
  ) {
    if (!(sampleRateHz >= 8000 && sampleRateHz <= 768_000)) {
      throw new RangeError(`sampleRateHz ${sampleRateHz} must be from 8000 to 768000`);
    }
    this.sampleRateHz = sampleRateHz;
    this.onHop = onHop;
    this.kept = kept;
    const shelves = new Shelves(shelf);
    this.mainLines = new LineStore(shelves);
    this.lowLines = new LineStore(shelves);
    this.octaves = new OctaveStore(shelves);
    this.ratio = ratioOf(sampleRateHz);
    const stages = Math.log2(this.ratio);
    this.rateHz = sampleRateHz / this.ratio;
    this.halves = Array.from({ length: stages }, () => new HalfRate());
    this.heldL = new Float64Array(this.ratio);
    this.heldR = new Float64Array(this.ratio);
    this.delayFrames = (this.ratio - 1) * HalfRate.delayFrames;

    this.mainBinHz = this.rateHz / HOP;
    this.slow = new SlowWindow(this.rateHz, HOP);
    const lowRate = this.slow.rateHz;
    this.lowBinHz = lowRate / SLOW_SIZE;
    const top = Math.min(HOP / 2 - 2, Math.floor(Math.min(MOST_HZ, 0.49 * this.rateHz) / this.mainBinHz));
    const mainFrom = Math.floor((0.8 * CROSSOVER_HZ) / this.mainBinHz);
    this.mainFinder = new LineFinder(mainFrom, top, 0.03, 5);
    const lowFrom = Math.max(2, Math.floor((0.75 * LEAST_HZ) / this.lowBinHz));
    const lowTop = Math.floor(Math.min(1.1 * CROSSOVER_HZ, 0.4 * lowRate) / this.lowBinHz);
    this.lowFinder = new LineFinder(lowFrom, lowTop, 0.06, 8);
    this.lowFloor = new FloorHistory(lowTop + 1);
    this.mainFloor = new FloorHistory(Math.min(top, Math.round(1300 / this.mainBinHz)) + 1);

    this.frameL = new Float64Array(HOP);
    this.frameR = new Float64Array(HOP);

    this.mainOctaves = octaveRanges(this.mainFinder, this.mainBinHz, FIRST_MAIN_OCTAVE, OCTAVES - 1);
    this.lowOctaves = octaveRanges(this.lowFinder, this.lowBinHz, 0, FIRST_MAIN_OCTAVE - 1);
  }

  /** hops that are complete in both spectra */
  get hops(): number {
    return this.lowLines.hops;
  }
  /** s per hop */
  get hopS(): number {
    return HOP / this.rateHz;
  }
  get durationS(): number {
    return this.framesIn / this.sampleRateHz;
  }
  /** s from the capture's first frame to the start of a hop; a fraction is allowed */
  timeOf(hop: number): number {
    return (hop * HOP * this.ratio - this.delayFrames) / this.sampleRateHz;
  }

  /** mean squares of octave `o` (0 at 31.5 Hz) in a hop: left, right, cross, floor */
  octave(hop: number, o: number): { left: number; right: number; cross: number; floor: number } {
    return this.octaves.at(hop, o);
  }

  part(): HopsPart {
    return {
      mainLines: this.mainLines.part(),
      lowLines: this.lowLines.part(),
      mainFloor: this.mainFloor.part(),
      lowFloor: this.lowFloor.part(),
      octaves: this.octaves.part(this.hops),
    };
  }

  /** Takes over what another ear heard in the hops that follow. @param frames of the capture, that these stand for */
  append(part: HopsPart, frames: number): void {
    this.octaves.append(part.octaves);
    this.mainLines.append(part.mainLines);
    this.lowLines.append(part.lowLines);
    this.mainFloor.append(part.mainFloor);
    this.lowFloor.append(part.lowFloor);
    this.framesIn += frames;
  }

  push(left: Float64Array, right: Float64Array, frames: number): void {
    this.framesIn += frames;
    const { ratio } = this;
    if (ratio === 1) {
      this.take(left, right, 0, frames);
      return;
    }
    let at = 0;
    // Halving wants whole groups of `ratio` frames: a group that a block's end cut through waits for the next block.
    while (this.heldFrames > 0 && at < frames) {
      this.hold(left[at], right[at]);
      at += 1;
      if (this.heldFrames === ratio) {
        this.heldFrames = 0;
        this.halve(this.heldL, this.heldR, 0, ratio);
      }
    }
    while (frames - at >= ratio) {
      const room = Math.min(CHUNK, ratio * (HOP - this.filled), frames - at);
      const whole = room - (room % ratio);
      this.halve(left, right, at, whole);
      at += whole;
    }
    for (; at < frames; at++) this.hold(left[at], right[at]);
  }

  private hold(left: number, right: number): void {
    this.heldL[this.heldFrames] = left;
    this.heldR[this.heldFrames] = right;
    this.heldFrames += 1;
  }

  /** Halves as often as needed, the last time into the hop's own frame; never more than the hop has room for. */
  private halve(left: Float64Array, right: Float64Array, from: number, frames: number): void {
    const { spareL, spareR, halves } = this;
    const last = halves.length - 1;
    let [l, r, at, count] = [left, right, from, frames];
    for (let i = 0; i < last; i++) {
      count = halves[i].push(l, r, at, count, spareL, spareR, 0);
      [l, r, at] = [spareL, spareR, 0];
    }
    this.advance(halves[last].push(l, r, at, count, this.frameL, this.frameR, this.filled));
  }

  private advance(frames: number): void {
    this.filled += frames;
    if (this.filled < HOP) return;
    this.hop();
    this.filled = 0;
  }

  /** The last part of a hop is filled up with silence; call once, at the end. */
  finish(): void {
    const real = this.filled > HOP / 16 ? this.hopsDone + 1 : this.hopsDone;
    const silence = new Float64Array(HOP);
    this.take(silence, silence, 0, HOP - this.filled);
    while (this.lowHopsDone < real) this.take(silence, silence, 0, HOP);
    // The padding's own hops are not part of the capture.
    this.hopsDone = real;
  }

  private take(left: Float64Array, right: Float64Array, from: number, frames: number): void {
    const { frameL, frameR } = this;
    const end = from + frames;
    for (let at = from; at < end; ) {
      const count = Math.min(HOP - this.filled, end - at);
      frameL.set(left.subarray(at, at + count), this.filled);
      frameR.set(right.subarray(at, at + count), this.filled);
      at += count;
      this.advance(count);
    }
  }

  private hop(): void {
    if (this.isKept(this.hopsDone)) this.hear(this.hopsDone - this.kept.from);
    this.hopsDone += 1;
    this.slowDown();
  }

  private isKept(hop: number): boolean {
    return hop >= this.kept.from && hop < this.kept.to;
  }

  private hear(hop: number): void {
    const { frameL, frameR, main, mainFinder } = this;
    main.measure(frameL, frameR, mainFinder.fromBin - 1, mainFinder.toBin);
    this.onHop({
      frames: HOP,
      left: Math.max(0, main.squaresLeft / HOP - (main.sumLeft / HOP) ** 2),
      right: Math.max(0, main.squaresRight / HOP - (main.sumRight / HOP) ** 2),
    });
    this.keep(main, mainFinder, this.mainLines, this.mainBinHz, 0.95 * CROSSOVER_HZ, MOST_HZ);
    this.octaves.add(hop, main, mainFinder, this.mainOctaves);
    this.mainFloor.add(main.power, main.scale);
  }

  private keep(
    s: StereoSpectrum,
    finder: LineFinder,
    store: LineStore,
    binHz: number,
    fromHz: number,
    toHz: number,
  ): void {
    finder.measureFloor(s.power);
    const count = finder.find(s);
    for (let i = 0; i < count; i++) {
      const line = finder.found[i];
      const hz = line.centre * binHz;
      if (hz >= fromHz && hz < toHz) {
        store.add(hz, line.left * s.scale, line.right * s.scale, line.cross * s.scale, line.spread * binHz, line.rise);
      }
    }
    store.endHop();
  }

  /** Every slow spectrum that the hop completes. */
  private slowDown(): void {
    this.slow.push(this.frameL, this.frameR);
    for (; this.slow.isFull; this.slow.next()) {
      if (this.isKept(this.lowHopsDone)) this.hearLow(this.lowHopsDone - this.kept.from);
      this.lowHopsDone += 1;
    }
  }

  private hearLow(hop: number): void {
    const { low, lowFinder } = this;
    low.measure(this.slow.left, this.slow.right, lowFinder.fromBin - 1, lowFinder.toBin);
    this.keep(low, lowFinder, this.lowLines, this.lowBinHz, LEAST_HZ, 1.05 * CROSSOVER_HZ);
    this.octaves.add(hop, low, lowFinder, this.lowOctaves);
    this.lowFloor.add(low.power, low.scale);
  }
}
