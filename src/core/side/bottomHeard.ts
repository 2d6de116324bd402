/**
 * The bottom of what plays, kept whole: where the tip dropped in and where a sweep went through the arm's resonance is known only afterwards, from
 * bands that came later. The same estimators as a file's then hear these stretches, at a kilohertz.
 */
import type { StereoBlock } from '../capture/recording.ts';
import type { Passage, SideKnown } from '../measure/bandEstimator.ts';
import { PassageReader, passageTask } from '../measure/estimators.ts';
import { ARM, LowRate } from '../measure/lowRate.ts';
import type { PassageReading } from '../measure/sideReadings.ts';
import type { Stretch } from '../record/stretch.ts';

/** twice what the estimators keep; 16 kB a second, an hour at most */
const KEPT = { ...ARM, rateHz: 2 * ARM.rateHz, mostS: 3600 };

export class BottomHeard {
  private readonly low: LowRate;

  constructor(sampleRateHz: number) {
    this.low = new LowRate(sampleRateHz, KEPT);
  }

  push(block: StereoBlock): void {
    this.low.push(block);
  }

  /** Of the stretches that need no more than this; in their order. Ends it. */
  read(stretches: readonly Stretch[], known: SideKnown): PassageReading[] {
    const { rateHz, delayS, left, right } = this.low.signal();
    this.low.end();
    return stretches.flatMap(({ kind, startS, endS, sheetBand }): PassageReading[] => {
      if (kind === 'tip-up') return [];
      const from = Math.max(0, Math.round((startS - delayS) * rateHz));
      const to = Math.min(left.length, Math.round((endS - delayS) * rateHz));
      const passage: Passage = {
        signal: kind,
        startS: delayS + from / rateHz,
        endS: delayS + to / rateHz,
        band: null,
        sheetBand,
      };
      // frames count from what was kept first
      const task = passageTask(
        { ...passage, startS: from / rateHz, endS: to / rateHz },
        { ...known, sampleRateHz: rateHz },
        left.length,
      );
      if (task === null) return [];
      const reader = new PassageReader(rateHz, task);
      const { fromFrame, toFrame } = task;
      reader.push({
        startFrame: fromFrame,
        frames: toFrame - fromFrame,
        left: left.subarray(fromFrame, toFrame),
        right: right.subarray(fromFrame, toFrame),
      });
      return [{ passage, readings: reader.finish() }];
    });
  }
}
