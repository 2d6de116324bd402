/** Where the tip drops into its groove the arm rings down: heard in what is in phase in both channels and what is in antiphase. */
import type { StereoBlock } from '../capture/recording.ts';
import type { BandEstimator, EstimatorKind } from './bandEstimator.ts';
import { ARM, LowRate } from './lowRate.ts';
import { type RingDown, ringDown } from './ringDown.ts';

export interface RingDownReading {
  readonly inPhase: RingDown | null;
  readonly antiphase: RingDown | null;
}

class RingDownEstimator implements BandEstimator<RingDownReading> {
  private readonly kept: LowRate;

  constructor(sampleRateHz: number) {
    this.kept = new LowRate(sampleRateHz, ARM);
  }

  push(block: StereoBlock): void {
    this.kept.push(block);
  }

  result(): RingDownReading {
    const signal = this.kept.signal();
    const of = (sign: 1 | -1): RingDown | null =>
      ringDown(
        signal,
        signal.left.map((l, n) => l + sign * signal.right[n]),
      );
    return { inPhase: of(1), antiphase: of(-1) };
  }

  end(): void {
    this.kept.end();
  }
}

export const ringDownKind: EstimatorKind<Record<string, never>, RingDownReading> = {
  settings: ({ signal }) => (signal === 'tip-drop' ? {} : null),
  begin: (sampleRateHz) => new RingDownEstimator(sampleRateHz),
};
