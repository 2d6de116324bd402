/** The arm seen from above, to scale: platter, grooves, pivot, tube, headshell, the tip's path and its null points. */

import type { PivotedArm } from '../geometry/arm.ts';
import { nullRadii } from '../geometry/law.ts';
import type { GrooveSpan } from '../geometry/span.ts';
import { say, statement } from '../words/statement.ts';
import { CENTRE_HOLE } from './paper.ts';
import { arc, circle, type Drawing, line, polygon, type Shape, text } from './shape.ts';

export interface PlanOptions {
  /** groove that the tip stands on, mm; the inner null, or the middle of the span, where left out */
  readonly radius?: number;
  /** radius of the platter, mm */
  readonly platter?: number;
  /** an arm as it stands, drawn faint behind */
  readonly asItStands?: PivotedArm;
}

/** Direction of the pivot from the spindle on the drawing: to the right and to the rear. */
const PIVOT_DIRECTION = (-48 * Math.PI) / 180;

/** Shapes of the moving parts. */
function armShapes(
  arm: PivotedArm,
  r: number,
  ox: number,
  oy: number,
  style: { readonly role: 'ink' | 'soft'; readonly dash?: readonly [number, number] },
): Shape[] {
  const { spindleToPivot: d, effectiveLength: L, offset } = arm;
  const [px, py] = [ox + d * Math.cos(PIVOT_DIRECTION), oy + d * Math.sin(PIVOT_DIRECTION)];
  const bearing = Math.acos(Math.max(-1, Math.min(1, (d * d + r * r - L * L) / (2 * d * r))));
  const outward = PIVOT_DIRECTION + bearing;
  const [tx, ty] = [ox + r * Math.cos(outward), oy + r * Math.sin(outward)];
  // the cartridge stands clockwise of the line from pivot to tip by the offset
  const along = Math.atan2(ty - py, tx - px) + offset;
  const [c, s] = [Math.cos(along), Math.sin(along)];
  const at = (forward: number, side: number): readonly [number, number] => [
    tx + forward * c - side * s,
    ty + forward * s + side * c,
  ];
  const box = (from: number, to: number, half: number): Shape =>
    polygon([at(from, -half), at(to, -half), at(to, half), at(from, half)], false, { width: 0.6, ...style });
  const neck = at(-42, 0);
  const stub = Math.atan2(py - neck[1], px - neck[0]);
  return [
    line(px - 34 * Math.cos(stub + Math.PI), py - 34 * Math.sin(stub + Math.PI), neck[0], neck[1], {
      width: 1.6,
      ...style,
    }),
    box(-42, 6, 9),
    box(-24, 1, 8),
    line(...at(-12, 0), ...at(5, 0), { width: 0.6, ...style }),
    circle(px, py, 12, { width: 0.6, ...style }),
    line(px - 3, py, px + 3, py, { width: 0.4, ...style }),
    line(px, py - 3, px, py + 3, { width: 0.4, ...style }),
    circle(tx, ty, 1.2, { width: 0.6, role: style.role === 'ink' ? 'accent' : 'soft' }),
  ];
}

/**
 * Plan view of an arm on its deck. The drawing's size holds platter and arm with a margin.
 */
export function armPlan(arm: PivotedArm, span: GrooveSpan, options: PlanOptions = {}): Drawing {
  const nulls = nullRadii(arm).filter((n) => n >= span.inner && n <= span.outer);
  const { platter = 150, radius = nulls[0] ?? (span.inner + span.outer) / 2, asItStands } = options;
  const { spindleToPivot: d, effectiveLength: L } = arm;
  const rim = Math.max(platter, span.outer + 4);
  const margin = 12;
  const reach = Math.max(d, asItStands?.spindleToPivot ?? 0);
  const [ox, oy] = [rim + margin, Math.max(rim, -reach * Math.sin(PIVOT_DIRECTION) + 40) + margin];
  const width = Math.max(2 * rim + 2 * margin, ox + reach * Math.cos(PIVOT_DIRECTION) + 44);
  const height = oy + rim + margin;
  const [px, py] = [ox + d * Math.cos(PIVOT_DIRECTION), oy + d * Math.sin(PIVOT_DIRECTION)];
  const place = (r: number): readonly [number, number] => {
    const bearing = Math.acos(Math.max(-1, Math.min(1, (d * d + r * r - L * L) / (2 * d * r))));
    return [ox + r * Math.cos(PIVOT_DIRECTION + bearing), oy + r * Math.sin(PIVOT_DIRECTION + bearing)];
  };
  const [start, end] = [place(span.outer), place(span.inner)];
  const shapes: Shape[] = [
    circle(ox, oy, rim, { role: 'body', width: 0.8 }),
    circle(ox, oy, span.outer, { role: 'groove', width: 0.4 }),
    circle(ox, oy, span.inner, { role: 'groove', width: 0.4 }),
    circle(ox, oy, CENTRE_HOLE / 2, { role: 'ink', width: 0.8 }),
    line(ox, oy, px, py, { role: 'soft', width: 0.4, dash: [3, 3] }),
    arc(px, py, L, Math.atan2(start[1] - py, start[0] - px), Math.atan2(end[1] - py, end[0] - px), {
      role: 'soft',
      width: 0.6,
    }),
    ...nulls.flatMap((n): Shape[] => {
      const [x, y] = place(n);
      return [
        circle(x, y, 2.6, { role: 'accent', width: 0.7 }),
        text(x - 5, y + 2, `${n.toFixed(1)}`, { size: 6, anchor: 'end', role: 'accent' }),
      ];
    }),
    ...(asItStands === undefined ? [] : armShapes(asItStands, radius, ox, oy, { role: 'soft', dash: [2, 2] })),
    ...armShapes(arm, radius, ox, oy, { role: 'ink' }),
    text(ox - 6, oy + 2, 'spindle', { size: 6, anchor: 'end', role: 'soft' }),
    text(px, py - 16, 'pivot', { size: 6, anchor: 'middle', role: 'soft' }),
  ];
  return {
    title: say(statement('plan-title', { pivotMm: d, lengthMm: L })),
    width,
    height,
    shapes,
  };
}
