/**
 * One tone band, fed in blocks, → its readings. Works in segments of at most two minutes and keeps of each only the
 * figures and a thin trace, so memory stays below about 60 MB however long the tone is: 4 MB of baseband, and the
 * transforms of one segment while it is read, lent (workArrays.ts) to one segment after the other.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { usableHalfWidthHz } from '../signal/narrowed.ts';
import { ToneMixer } from '../signal/toneMixer.ts';
import { onLoan } from '../signal/workArrays.ts';
import type { BandEstimator } from './bandEstimator.ts';
import { FlutterAnalysis, type FlutterFigure } from './flutter.ts';
import { type SpectrumPoints, spectrumPoints } from './flutterPoints.ts';
import { FLAT_TO_HZ } from './flutterWeighting.ts';
import { type ChannelHarmonics, HarmonicEstimator } from './harmonics.ts';
import { type ThinTrace, thinned } from './thinTrace.ts';
import type { ToneSettings } from './toneKind.ts';
import {
  type ComplexEstimate,
  type Driven,
  type Estimate,
  readSegment,
  type SegmentReading,
  type SpeedTrace,
} from './toneSegment.ts';

/** s */
const SEGMENT_S = 120;
/** below this wow and flutter is not read, s */
export const LEAST_FLUTTER_S = 4;

export interface SegmentFlutter {
  readonly weighted: FlutterFigure;
  readonly unweighted: FlutterFigure;
  /** of the first segment */
  readonly spectrum: SpectrumPoints | null;
  readonly lengthS: number;
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
  /** why `segments` is empty, else '' */
  readonly why: string;
}

export class ToneEstimator implements BandEstimator<ToneReading> {
  private readonly mixer: ToneMixer;
  private readonly driven: Driven;
  private readonly withFlutter: boolean;
  private readonly harmonics: HarmonicEstimator | null;
  private heardHarmonics: ChannelHarmonics[] | null = null;
  private readonly done: SegmentFigures[] = [];
  private why = 'nothing was heard yet';

  /**
   * @param settings `frequencyHz` within ±100 Hz of the tone; `withFlutter` false spares the work where another tone tells it;
   *   `withHarmonics` for tones from 250 Hz up
   */
  constructor(sampleRateHz: number, { frequencyHz, driven, withFlutter, withHarmonics }: ToneSettings) {
    this.mixer = new ToneMixer(sampleRateHz, frequencyHz);
    this.driven = driven;
    this.withFlutter = withFlutter;
    this.harmonics = withHarmonics ? new HarmonicEstimator(sampleRateHz, frequencyHz, driven) : null;
  }

  /** Blocks must follow one another without a hole. */
  push(block: StereoBlock): void {
    const { left, right, frames, startFrame } = block;
    this.harmonics?.push(block);
    this.mixer.push(left, right, 0, frames, startFrame);
    // before the first segment takes the tone away
    if (this.harmonics?.isFull) this.heardHarmonics ??= this.harmonics.result(this.mixer);
    if (this.mixer.waitingS >= SEGMENT_S) {
      const figures = onLoan(() => this.read(readSegment(this.mixer.take(), this.driven)));
      if (figures !== null) this.done.push(figures);
    }
  }

  /** What has been read so far; may be asked again as more comes in. */
  result(): ToneReading {
    const last =
      this.mixer.waitingS >= 0.2 ? onLoan(() => this.read(readSegment(this.mixer.peek(), this.driven))) : null;
    const segments = last === null ? [...this.done] : [...this.done, last];
    const reading = { driven: this.driven, segments, why: segments.length === 0 ? this.why : '' };
    if (this.harmonics === null) return reading;
    return { ...reading, harmonics: this.heardHarmonics ?? this.harmonics.result(this.mixer) };
  }

  /** Gives back its memory; to be called when nothing more is asked for. */
  end(): void {
    this.mixer.end();
    this.harmonics?.end();
  }

  private read(reading: SegmentReading): SegmentFigures | null {
    if (!reading.found) {
      this.why = reading.why;
      return null;
    }
    const { startS, endS, usedS, ratio, logLevel, speed } = reading;
    const lengthS = speed.deviation.length / speed.rateHz;
    const tells = this.withFlutter && lengthS >= LEAST_FLUTTER_S && usableHalfWidthHz(speed.meanHz) >= FLAT_TO_HZ;
    const flutter = tells ? onLoan(() => this.flutterOf(speed, lengthS)) : null;
    return { startS, endS, usedS, ratio, logLevel, trace: thinned(speed), flutter };
  }

  private flutterOf(speed: SpeedTrace, lengthS: number): SegmentFlutter {
    const analysis = new FlutterAnalysis(speed);
    return {
      ...onLoan(() => analysis.figures()),
      // one is enough to look at
      spectrum: this.done.length === 0 ? spectrumPoints(analysis.spectrum()) : null,
      lengthS,
    };
  }
}
