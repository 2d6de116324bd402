/** What a person reads at a template's point, made with plain vectors for an arm whose figures are known. */
import type { PointReading } from './readings.ts';
import { solveArm } from './solve.ts';
import { grooveSpan } from './span.ts';

export const span = grooveSpan('12in');
export const target = (d: number) => {
  const solved = solveArm({ length: { known: 'spindle-to-pivot', mm: d }, span, criterion: 'lofgren-a' });
  if (!solved.found) throw new Error(solved.why.code);
  return solved.value.arm;
};
type Vector = readonly [number, number];

/**
 * What a person reads at a drawn point, worked out with plain vectors: spindle at the origin, pivot at (0, d), the sheet
 * drawn for another arm, the arm under test swung so that its tip is near the point.
 */
export function readAtPoint(
  truth: { d: number; L: number; offset: number },
  sheet: { d: number; L: number },
  R: number,
  swing: number,
): PointReading {
  const bearing = Math.acos((sheet.d ** 2 + R * R - sheet.L ** 2) / (2 * sheet.d * R));
  const point: Vector = [R * Math.sin(bearing), R * Math.cos(bearing)];
  // the arm hangs from its own pivot towards the point, turned a little further
  const down = Math.atan2(point[1] - truth.d, point[0]) + swing;
  const tip: Vector = [truth.L * Math.cos(down), truth.d + truth.L * Math.sin(down)];
  const out: Vector = [Math.sin(bearing), Math.cos(bearing)];
  const groove: Vector = [out[1], -out[0]];
  const cartridge = down - truth.offset; // anticlockwise angles: clockwise is minus
  const grid = Math.atan2(groove[1], groove[0]);
  const miss: Vector = [tip[0] - point[0], tip[1] - point[1]];
  return {
    kind: 'point',
    radius: R,
    along: miss[0] * groove[0] + miss[1] * groove[1],
    across: miss[0] * out[0] + miss[1] * out[1],
    twist: Math.atan2(Math.sin(grid - cartridge), Math.cos(grid - cartridge)),
    drawnFor: { spindleToPivot: sheet.d, effectiveLength: sheet.L },
  };
}
