/**
 * Control chart of single readings: individuals and moving range.
 *
 *   mR_i = |x_i − x_{i−1}|      centre x̄,  limits x̄ ± 3 mR̄/d₂,  mR up to D₄ mR̄      d₂ = 2/√π,  D₄ = 1 + 3 √(2 − 4/π)/d₂
 *
 * d₂ and d₃ are mean and spread of the range of two normal readings, in closed form: 3/d₂ = 2.659, D₄ = 3.267.
 *
 * @source Shewhart's chart, ISO 7870-2 (from memory, not seen in a source; the constants follow from the normal distribution)
 * @checked test/standards/repeats.test.ts
 */
const D2 = 2 / Math.sqrt(Math.PI);
const D3 = Math.sqrt(2 - 4 / Math.PI);
const PER_RANGE = 3 / D2;
const RANGE_LIMIT = 1 + (3 * D3) / D2;

/** below this the limits say next to nothing */
export const LEAST_POINTS = 5;
/** in a row on one side of the centre: one in 128 of a process at rest does it at a given place */
const RUN = 8;

export type Signal = 'beyond' | 'run' | 'jump';

export interface ChartLimits {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  /** one for each reading but the first */
  readonly ranges: readonly number[];
  readonly meanRange: number;
  readonly rangeLimit: number;
}

export interface ControlChart extends ChartLimits {
  /** by reading: what speaks against a process at rest; mostly empty */
  readonly signals: readonly (readonly Signal[])[];
  /** a reading, by least squares over their order; and its standard uncertainty by the moving range */
  readonly slope: number;
  readonly slopeSpread: number;
}

/** @param values two or more, in the order read */
export function chartLimits(values: readonly number[]): ChartLimits {
  const centre = values.reduce((sum, v) => sum + v, 0) / values.length;
  const ranges = values.slice(1).map((v, i) => Math.abs(v - values[i]));
  const meanRange = ranges.reduce((sum, v) => sum + v, 0) / ranges.length;
  return {
    centre,
    low: centre - PER_RANGE * meanRange,
    high: centre + PER_RANGE * meanRange,
    ranges,
    meanRange,
    rangeLimit: RANGE_LIMIT * meanRange,
  };
}

/** The reading at `i` and those before it lie on one side of the centre, so many in a row that chance seldom does it. */
export function endsRun(values: readonly number[], i: number, centre: number): boolean {
  const side = Math.sign(values[i] - centre);
  return side !== 0 && i >= RUN - 1 && values.slice(i - RUN + 1, i).every((v) => Math.sign(v - centre) === side);
}

/** @param values in the order read @returns null of fewer than five */
export function controlChart(values: readonly number[]): ControlChart | null {
  const n = values.length;
  if (n < LEAST_POINTS) return null;
  const limits = chartLimits(values);
  const { centre, low, high, ranges, meanRange, rangeLimit } = limits;
  const signals = values.map((value, i): Signal[] => {
    return [
      ...(value < low || value > high ? (['beyond'] as const) : []),
      ...(endsRun(values, i, centre) ? (['run'] as const) : []),
      ...(i > 0 && ranges[i - 1] > rangeLimit ? (['jump'] as const) : []),
    ];
  });
  const middle = (n - 1) / 2;
  const square = values.reduce((sum, _, i) => sum + (i - middle) ** 2, 0);
  const slope = values.reduce((sum, v, i) => sum + (i - middle) * (v - centre), 0) / square;
  return {
    ...limits,
    signals,
    slope,
    slopeSpread: meanRange / D2 / Math.sqrt(square),
  };
}
