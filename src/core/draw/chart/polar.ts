/**
 * A curve against the platter's angle, counted on from turn to turn, as rings: each turn a thin line, their mean a thick one. The middle
 * ring is zero; outside it is more.
 */
import { pathOf } from './line.ts';
import { widened } from './scale.ts';

export interface PolarPlot {
  /** the turns one after the other, and their mean, as SVG paths about (0, 0) within `size` / 2 */
  readonly turns: string;
  readonly mean: string;
  /** radii of the rings that are labelled, with their values */
  readonly rings: readonly { readonly r: number; readonly value: number }[];
  /** by angle, ascending: 0° is up, clockwise as the record turns */
  readonly around: readonly PolarValue[];
}

export interface PolarValue {
  readonly deg: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** of the radius: where zero lies, and how far the greatest deviation reaches from it */
const ZERO = 0.62;
const REACH = 0.34;
/** degrees that share a mean */
const STEP_DEG = 10;

/** @param x deg, ascending @param y deviation @param size of the square drawn in */
export function polarPlot(x: readonly number[], y: readonly number[], size: number): PolarPlot {
  const bins = Array.from({ length: 360 / STEP_DEG }, (): number[] => []);
  x.forEach((deg, i) => {
    bins[Math.floor((((deg % 360) + 360) % 360) / STEP_DEG) % bins.length].push(y[i]);
  });
  const around = bins.flatMap((values, bin) =>
    values.length === 0
      ? []
      : [
          {
            deg: (bin + 0.5) * STEP_DEG,
            mean: values.reduce((sum, v) => sum + v, 0) / values.length,
            low: Math.min(...values),
            high: Math.max(...values),
          },
        ],
  );
  const most = widened([0, y.reduce((m, v) => Math.max(m, Math.abs(v)), 0)], 0.02)[1];
  const radius = size / 2;
  const at = (deg: number, value: number): readonly [number, number] => {
    const r = radius * (ZERO + (REACH * value) / most);
    const angle = (deg * Math.PI) / 180;
    return [r * Math.sin(angle), -r * Math.cos(angle)];
  };
  const closed = around.length === bins.length ? [...around, around[0]] : around;
  const ring = roundDown(most / 2);
  return {
    turns: pathOf(x.map((deg, i) => at(deg, y[i]))),
    mean: pathOf(closed.map(({ deg, mean }) => at(deg, mean))),
    rings: [-ring, 0, ring].map((value) => ({ r: radius * (ZERO + (REACH * value) / most), value })),
    around,
  };
}

/** To 1, 2 or 5 times a power of ten, the next below. */
function roundDown(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = value / power;
  return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}
