/**
 * Two channels at the whole rate, at half of it, a quarter …: what lies low is heard at a rate that fits it. Each level is flat up to 0.37 of its
 * own rate and free of what folds back there by 80 dB.
 */
import { LANES, LaneDecimator } from './laneDecimator.ts';
import { lowpassTaps } from './lowpass.ts';
import { lentArray, takeBack } from './workArrays.ts';

/** a level below the first is true up to this share of its own rate */
export const LEVEL_REACH = 0.37;

export interface ChainLevel {
  readonly rateHz: number;
  /** s from the first frame pushed to the level's first sample */
  readonly delayS: number;
}

/** Takes a level's next samples; the arrays are overwritten afterwards. */
export type TakeLevel = (level: number, left: Float64Array, right: Float64Array, count: number) => void;

interface Stage {
  readonly decimator: LaneDecimator;
  out: Float64Array<ArrayBuffer>;
  left: Float64Array<ArrayBuffer>;
  right: Float64Array<ArrayBuffer>;
}

export class OctaveChain {
  readonly levels: readonly ChainLevel[];
  private readonly stages: Stage[] = [];
  private readonly take: TakeLevel;
  private lanes = new Float64Array(0);

  /** @param count levels, the whole rate among them, 1 up */
  constructor(sampleRateHz: number, count: number, take: TakeLevel) {
    this.take = take;
    const taps = lowpassTaps({
      sampleRateHz: 1,
      passHz: LEVEL_REACH / 2,
      stopHz: (1 - LEVEL_REACH) / 2,
      attenuationDb: 80,
    });
    const levels: ChainLevel[] = [{ rateHz: sampleRateHz, delayS: 0 }];
    for (let k = 1; k < count; k++) {
      const before = levels[k - 1];
      const decimator = new LaneDecimator(taps, 2);
      this.stages.push({ decimator, ...emptied() });
      levels.push({ rateHz: before.rateHz / 2, delayS: before.delayS + decimator.delayFrames / before.rateHz });
    }
    this.levels = levels;
  }

  push(left: Float64Array, right: Float64Array, frames: number): void {
    this.take(0, left, right, frames);
    if (this.stages.length === 0) return;
    if (this.lanes.length < LANES * frames) {
      giveBack(this.lanes);
      this.lanes = lentArray(LANES * frames);
    }
    for (let n = 0; n < frames; n++) {
      this.lanes[LANES * n] = left[n];
      this.lanes[LANES * n + 1] = right[n];
    }
    let input: Float64Array = this.lanes;
    let count = frames;
    this.stages.forEach((stage, i) => {
      const most = (count >> 1) + 2;
      if (stage.left.length < most) {
        giveBack(stage.out, stage.left, stage.right);
        stage.out = lentArray(LANES * most);
        stage.left = lentArray(most);
        stage.right = lentArray(most);
      }
      count = stage.decimator.push(input, count, stage.out);
      input = stage.out;
      for (let n = 0; n < count; n++) {
        stage.left[n] = input[LANES * n];
        stage.right[n] = input[LANES * n + 1];
      }
      this.take(i + 1, stage.left, stage.right, count);
    });
  }

  end(): void {
    giveBack(this.lanes);
    this.lanes = new Float64Array(0);
    for (const stage of this.stages) {
      stage.decimator.end();
      giveBack(stage.out, stage.left, stage.right);
      Object.assign(stage, emptied());
    }
  }
}

const emptied = (): Pick<Stage, 'out' | 'left' | 'right'> => ({
  out: new Float64Array(0),
  left: new Float64Array(0),
  right: new Float64Array(0),
});

function giveBack(...arrays: Float64Array<ArrayBuffer>[]): void {
  for (const array of arrays) if (array.length > 0) takeBack(array);
}
