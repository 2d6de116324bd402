/** A speed trace averaged down to about 20 values a second: enough for what the platter does, and small to keep. */
import type { SpeedTrace } from './toneSegment.ts';

export interface ThinTrace {
  readonly rateHz: number;
  /** s from the recording's first frame to the middle of the first value */
  readonly startS: number;
  /** Hz, the mean over the trace */
  readonly meanHz: number;
  /** (f − mean)/mean */
  readonly deviation: Float64Array;
  /** s that one value averages */
  readonly groupS: number;
}

const THIN_HZ = 20;

export function thinned(trace: SpeedTrace): ThinTrace {
  const group = Math.max(1, Math.floor(trace.rateHz / THIN_HZ));
  const count = Math.floor(trace.deviation.length / group);
  const deviation = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    let sum = 0;
    for (let k = 0; k < group; k++) sum += trace.deviation[n * group + k];
    deviation[n] = sum / group;
  }
  return {
    rateHz: trace.rateHz / group,
    startS: trace.startS + (group - 1) / 2 / trace.rateHz,
    meanHz: trace.meanHz,
    deviation,
    groupS: group / trace.rateHz,
  };
}
