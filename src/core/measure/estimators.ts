/** Every estimator there is, by name, and one passage read with those that have something to say of it. */
import type { StereoBlock } from '../capture/recording.ts';
import { atOnce, type Steps } from '../signal/steps.ts';
import type { BandEstimator, EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import { spectrumKind } from './bandSpectra.ts';
import { burstKind } from './burstEstimator.ts';
import { lowSweepKind } from './lowSweepEstimator.ts';
import { noiseResponseKind } from './noiseResponseEstimator.ts';
import { quietKind } from './quietKind.ts';
import { ringDownKind } from './ringDownKind.ts';
import { sweepKind } from './sweepKind.ts';
import { toneKind } from './toneKind.ts';
import { twoToneKind } from './twoToneKind.ts';

/** To add an estimator, add its kind here; its readings then stand in every passage's `readings` under its name. */
const ESTIMATORS = {
  tone: toneKind,
  twoTone: twoToneKind,
  quiet: quietKind,
  lowSweep: lowSweepKind,
  sweep: sweepKind,
  ringDown: ringDownKind,
  bursts: burstKind,
  noiseResponse: noiseResponseKind,
  spectrum: spectrumKind,
} as const;

export type EstimatorName = keyof typeof ESTIMATORS;
type ReadingOf<N extends EstimatorName> =
  (typeof ESTIMATORS)[N] extends EstimatorKind<infer _, infer Reading> ? Reading : never;

/** What each estimator read of a passage; absent where it had nothing to say. Plain data. */
export type Readings = { readonly [N in EstimatorName]?: ReadingOf<N> };

/** A passage with what it is to be listened to by: plain data. */
export interface PassageTask {
  readonly fromFrame: number;
  /** one past the last */
  readonly toFrame: number;
  readonly estimators: readonly { readonly name: EstimatorName; readonly settings: unknown }[];
}

/** @param frames of the capture @returns null where nothing has anything to say of the passage */
export function passageTask(passage: Passage, side: SideKnown, frames: number): PassageTask | null {
  const fromFrame = Math.max(0, Math.round(passage.startS * side.sampleRateHz));
  const toFrame = Math.min(frames, Math.round(passage.endS * side.sampleRateHz));
  if (!(toFrame > fromFrame)) return null;
  const estimators = (Object.keys(ESTIMATORS) as EstimatorName[]).flatMap((name) => {
    const settings: unknown = ESTIMATORS[name].settings(passage, side);
    return settings === null ? [] : [{ name, settings }];
  });
  return estimators.length === 0 ? null : { fromFrame, toFrame, estimators };
}

/** The estimators of one passage, fed together. */
export class PassageReader {
  private readonly estimators: readonly { readonly name: EstimatorName; readonly of: BandEstimator<unknown> }[];

  constructor(sampleRateHz: number, { estimators }: Pick<PassageTask, 'estimators'>) {
    this.estimators = estimators.map(({ name, settings }) => {
      // each kind made its own settings
      const kind = ESTIMATORS[name] as EstimatorKind<unknown, unknown>;
      return { name, of: kind.begin(sampleRateHz, settings) };
    });
  }

  push(block: StereoBlock): void {
    for (const { of } of this.estimators) of.push(block);
  }

  /** While the passage plays: of those that can say something by then. */
  running(): Readings {
    return Object.fromEntries(
      this.estimators.flatMap(({ name, of }) => (of.running === undefined ? [] : [[name, of.running()]])),
    );
  }

  /** The whole reading, and the end of it: memory is given back. */
  finish(): Readings {
    return atOnce(this.finishing());
  }

  /** The same in steps. */
  *finishing(): Steps<Readings> {
    const readings: [EstimatorName, unknown][] = [];
    for (const { name, of } of this.estimators) {
      readings.push([name, of.inSteps === undefined ? of.result() : yield* of.inSteps()]);
      yield;
    }
    this.end();
    return Object.fromEntries(readings);
  }

  end(): void {
    for (const { of } of this.estimators) of.end();
  }
}
