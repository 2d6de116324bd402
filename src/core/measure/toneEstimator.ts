/**
 * One tone band, fed in blocks, → its readings. Works in segments of at most two minutes and keeps of each only the
 * figures and a thin trace, so memory stays below about 60 MB however long the tone is: 4 MB of baseband, and the
 * transforms of one segment while it is read, lent (workArrays.ts) to one segment after the other.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { usableHalfWidthHz } from '../signal/narrowed.ts';
import { atOnce, type Lent, type Steps } from '../signal/steps.ts';
import { type Baseband, ToneMixer } from '../signal/toneMixer.ts';
import { LongLoan, onLoan } from '../signal/workArrays.ts';
import type { BandEstimator } from './bandEstimator.ts';
import { FlutterAnalysis, type FlutterFigure, type WeightedTrace } from './flutter.ts';
import { type FlutterLine, flutterLinesInSteps } from './flutterLines.ts';
import { type SpectrumPoints, spectrumPoints } from './flutterPoints.ts';
import { FLAT_TO_HZ } from './flutterWeighting.ts';
import { type ChannelHarmonics, HarmonicEstimator } from './harmonics.ts';
import { type SwaySpectra, swayMixHz, swaySpectraInSteps } from './swaySpectra.ts';
import { type ThinTrace, thinned } from './thinTrace.ts';
import type { ToneSettings } from './toneKind.ts';
import {
  type ComplexEstimate,
  type Driven,
  type Estimate,
  readSegment,
  type SegmentReading,
  type SpeedTrace,
  segmentInSteps,
  type ToneSegment,
} from './toneSegment.ts';

/** s */
const SEGMENT_S = 120;
/** parts that a running result is read in, s; one that was not asked for long catches up with so many at a time */
const PART_S = 4;
const MOST_PARTS_AT_ONCE = 2;
const LEAST_PART_S = 0.4;
/** Hz: below it the tone's own motion reaches where the arm swings */
const SWAY_FROM_HZ = 1000;
/** below this wow and flutter is not read, s */
export const LEAST_FLUTTER_S = 4;

export interface SegmentFlutter {
  readonly weighted: FlutterFigure;
  readonly unweighted: FlutterFigure;
  readonly weightedTrace: WeightedTrace;
  /** of the first segment */
  readonly spectrum: SpectrumPoints | null;
  /** of the first segment; else none */
  readonly lines: readonly FlutterLine[];
  readonly lengthS: number;
  /** of the first segment, where the tone is high and long enough */
  readonly sway: SwaySpectra | null;
}

export interface SegmentFigures {
  readonly startS: number;
  readonly endS: number;
  readonly usedS: number;
  readonly ratio: ComplexEstimate;
  readonly logLevel: Estimate;
  readonly trace: ThinTrace;
  /** null where the segment is too short */
  readonly flutter: SegmentFlutter | null;
}

export interface ToneReading {
  readonly driven: Driven;
  /** in order; empty where no tone could be followed */
  readonly segments: readonly SegmentFigures[];
  /** as captured, of each driven channel; absent where they were not asked for */
  readonly harmonics?: readonly ChannelHarmonics[];
}

export class ToneEstimator implements BandEstimator<ToneReading> {
  private readonly mixer: ToneMixer;
  private readonly driven: Driven;
  private readonly withFlutter: boolean;
  private readonly harmonics: HarmonicEstimator | null;
  /** both channels where the arm swings, through the same stages as the tone; until the first segment is read */
  private low: ToneMixer | null;
  private heardHarmonics: ChannelHarmonics[] | null = null;
  private readonly done: SegmentFigures[] = [];
  /** of the open segment, for `running`: what has been read in short parts, and the sample up to which */
  private readonly parts: SegmentFigures[] = [];
  private partsTo = 0;
  /** samples of a segment; the one that is full, on its way to its figures */
  private readonly whole: number;
  private reading: Steps<void> | null = null;

  /**
   * @param settings `frequencyHz` within ±100 Hz of the tone; `withFlutter` false spares the work where another tone tells it;
   *   `withHarmonics` for tones from 250 Hz up
   */
  constructor(sampleRateHz: number, { frequencyHz, driven, withFlutter, withHarmonics }: ToneSettings) {
    this.mixer = new ToneMixer(sampleRateHz, frequencyHz);
    this.whole = Math.round(SEGMENT_S * this.mixer.rateHz);
    this.driven = driven;
    this.withFlutter = withFlutter;
    const tellsSway = withFlutter && frequencyHz >= SWAY_FROM_HZ;
    this.low = tellsSway ? new ToneMixer(sampleRateHz, swayMixHz(this.mixer.rateHz)) : null;
    this.harmonics = withHarmonics ? new HarmonicEstimator(sampleRateHz, frequencyHz, driven) : null;
  }

  /** Blocks must follow one another without a hole. */
  push(block: StereoBlock): void {
    const { left, right, frames, startFrame } = block;
    this.harmonics?.push(block);
    this.mixer.push(left, right, 0, frames, startFrame);
    this.low?.push(left, right, 0, frames, startFrame);
    this.workOnWhatIsFull();
  }

  /** One step of a reading that needs nothing more to come in; false where there is none. Its samples wait in the mixer until it is read. */
  private workOnWhatIsFull(): boolean {
    this.reading ??= this.nextReading();
    if (this.reading === null) return false;
    if (this.reading.next().done === true) this.reading = null;
    return true;
  }

  /** Harmonics come before the first segment takes the tone away. */
  private nextReading(): Steps<void> | null {
    if (this.harmonics?.isFull === true && this.heardHarmonics === null) return this.readHarmonics(this.harmonics);
    return this.mixer.waiting >= this.whole ? this.readWhole() : null;
  }

  private *readHarmonics(harmonics: HarmonicEstimator): Steps<void> {
    this.heardHarmonics = yield* harmonics.inSteps(this.mixer);
  }

  private *readWhole(): Steps<void> {
    const figures = yield* this.readInSteps(() => this.mixer.peek(0, this.whole));
    if (figures !== null) this.done.push(figures);
    this.mixer.forget(this.whole);
    this.low?.end();
    this.low = null;
    this.parts.length = 0;
    this.partsTo = 0;
  }

  /**
   * What can be said while the tone plays: parts of four seconds, each read once, and the rest. Their mean is nearly that of the
   * whole; wow and flutter, which need the whole, and harmonics that are not settled are left out.
   */
  running(): ToneReading {
    const { mixer, parts } = this;
    const part = Math.round(PART_S * mixer.rateHz);
    const read = (from: number, to: number): SegmentFigures | null =>
      onLoan(() => this.read(readSegment(mixer.peek(from, to), this.driven)));
    for (let n = 0; n < MOST_PARTS_AT_ONCE && mixer.waiting - this.partsTo >= part; n++) {
      const figures = read(this.partsTo, this.partsTo + part);
      if (figures !== null) parts.push(figures);
      this.partsTo += part;
    }
    const rest = mixer.waiting - this.partsTo;
    const last = rest >= LEAST_PART_S * mixer.rateHz && rest < part ? read(this.partsTo, mixer.waiting) : null;
    const segments = [...this.done, ...parts, ...(last === null ? [] : [last])];
    const reading = { driven: this.driven, segments };
    return this.heardHarmonics === null ? reading : { ...reading, harmonics: this.heardHarmonics };
  }

  /** What has been read so far; may be asked again as more comes in. */
  result(): ToneReading {
    return atOnce(this.inSteps());
  }

  *inSteps(): Steps<ToneReading> {
    while (this.workOnWhatIsFull()) yield;
    const last = this.mixer.waitingS >= 0.2 ? yield* this.readInSteps(() => this.mixer.peek()) : null;
    const segments = last === null ? [...this.done] : [...this.done, last];
    const reading = { driven: this.driven, segments };
    if (this.harmonics === null) return reading;
    yield;
    return { ...reading, harmonics: this.heardHarmonics ?? (yield* this.harmonics.inSteps(this.mixer)) };
  }

  /** Gives back its memory; to be called when nothing more is asked for. */
  end(): void {
    this.mixer.end();
    this.low?.end();
    this.harmonics?.end();
  }

  /** A short part, without wow and flutter. */
  private read(reading: SegmentReading): SegmentFigures | null {
    return reading.found ? { ...plain(reading), flutter: null } : null;
  }

  /** A whole segment. */
  private *readInSteps(segment: () => Baseband): Steps<SegmentFigures | null> {
    const loan = new LongLoan();
    const lent: Lent = (work) => loan.during(work);
    const reading = yield* segmentInSteps(segment, this.driven, lent);
    if (!reading.found) {
      loan.end();
      return null;
    }
    const { speed } = reading;
    const lengthS = speed.deviation.length / speed.rateHz;
    const tells = this.withFlutter && lengthS >= LEAST_FLUTTER_S && usableHalfWidthHz(speed.meanHz) >= FLAT_TO_HZ;
    const kept = tells ? keptBeyondLoan(speed) : null;
    const figures = plain(reading);
    loan.end();
    if (kept === null) return { ...figures, flutter: null };
    yield;
    // one spectrum is enough to look at
    const isFirst = this.done.length === 0;
    const analysis = yield* FlutterAnalysis.inSteps(kept, lent);
    yield;
    const inner = new LongLoan();
    const wowAndFlutter = yield* analysis.figuresInSteps((work) => inner.during(work));
    inner.end();
    yield;
    const spectrum = isFirst ? lent(() => spectrumPoints(analysis.spectrum())) : null;
    loan.end();
    yield;
    const lines = isFirst ? yield* flutterLinesInSteps(kept, lent) : [];
    loan.end();
    const { low } = this;
    if (low === null || !isFirst)
      return { ...figures, flutter: { ...wowAndFlutter, spectrum, lines, lengthS, sway: null } };
    yield;
    const sway = yield* swaySpectraInSteps(
      kept,
      lent(() => low.peek()),
    );
    loan.end();
    return { ...figures, flutter: { ...wowAndFlutter, spectrum, lines, lengthS, sway } };
  }
}

const plain = ({ startS, endS, usedS, ratio, logLevel, speed }: ToneSegment): Omit<SegmentFigures, 'flutter'> => ({
  startS,
  endS,
  usedS,
  ratio,
  logLevel,
  trace: thinned(speed),
});

const keptBeyondLoan = (speed: SpeedTrace): SpeedTrace => ({
  ...speed,
  deviation: speed.deviation.slice(),
  level: speed.level.slice(),
});
