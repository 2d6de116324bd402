/**
 * Arc template for one arm: the path that the tip must follow, the grids on it, and the line of sight to the pivot. Where the
 * pivot lies off the paper the sheet goes on, with marks that are laid on one another.
 *
 * Frame: spindle at the origin, pivot straight up at d. A groove of radius r meets the tip at the bearing α from that line,
 *
 *   cos α = (d² + r² − L²) / (2 d r)
 *
 * clockwise, since the pivot stands behind and the tip to the right of the spindle.
 */

import { type Found, none } from '../words/found.ts';
import { say, statement } from '../words/statement.ts';
import { arcLabels, type TipArc } from './arcLabels.ts';
import { sheetsToPivot, TOP } from './arcSheets.ts';
import { ACROSS, gridAt } from './grid.ts';
import { LEAST } from './lettering.ts';
import { barAcross, barDown, correctionWords, MARGIN, papers, spindleHole, wordBlock } from './paper.ts';
import { arc, line, type Shape, text } from './shape.ts';
import { pointName, type Template, type TemplateRequest, templateNumbers } from './template.ts';

/** Where the spindle stands on the first sheet: from the left, and from the bottom, mm. */
const SPINDLE_X = 34;
const SPINDLE_UP = 60;

/** Bearing of the tip from the line spindle to pivot, rad. */
const bearing = (d: number, L: number, r: number): number =>
  Math.acos(Math.max(-1, Math.min(1, (d * d + r * r - L * L) / (2 * d * r))));

interface Tip extends TipArc {
  readonly at: (groove: number) => { readonly x: number; readonly y: number; readonly outward: number };
}

/** The tip's arc about the pivot, ticks at every 10 mm of radius, the ends of the span. */
function arcLines(tip: Tip, spindleY: number, armAt: (groove: number) => number): Shape[] {
  const { x: x0, y: yPivot, r: L, at, inner, outer, from } = tip;
  const [alphaInner, alphaOuter] = [armAt(from), armAt(outer + 3)];
  const to = outer + 3;
  const a1 = Math.atan2(spindleY - from * Math.cos(alphaInner) - yPivot, from * Math.sin(alphaInner));
  const a2 = Math.atan2(spindleY - to * Math.cos(alphaOuter) - yPivot, to * Math.sin(alphaOuter));
  const shapes: Shape[] = [arc(x0, yPivot, L, Math.min(a1, a2), Math.max(a1, a2))];
  for (let r = Math.ceil(inner / 10) * 10; r <= outer; r += 10) {
    const { x, y } = at(r);
    const [ux, uy] = [(x - x0) / L, (y - yPivot) / L];
    shapes.push(line(x, y, x + 1.6 * ux, y + 1.6 * uy));
  }
  for (const r of [inner, outer]) {
    if (r < from) continue;
    const { x, y, outward } = at(r);
    const [c, s] = [Math.cos(outward), Math.sin(outward)];
    shapes.push(line(x + 3 * s, y - 3 * c, x - 3 * s, y + 3 * c));
  }
  return shapes;
}

/** A grid at every null point that the arc passes. */
function nullGrids({ at, from, outer }: Tip, nullPointsMm: readonly number[]) {
  const shapes: Shape[] = [];
  const nulls = nullPointsMm.filter((r) => r >= from && r <= outer + 3);
  const gap = nulls.length === 2 ? nulls[1] - nulls[0] : 100;
  const points = nulls.map((radius, i) => {
    const { x, y, outward } = at(radius);
    const grid = gridAt({
      x,
      y,
      outward,
      name: pointName(i, nulls.length),
      radius,
      across: Math.max(2, Math.min(ACROSS, gap / 2 - 1.5)),
      words: nulls.length === 2 && i === 0 ? 'inward' : 'outward',
    });
    shapes.push(...grid.shapes);
    return { sheet: 0, x, y, radius, crossing: grid.crossing };
  });
  return { shapes, points };
}

export function arcTemplate(request: TemplateRequest): Found<Template> {
  const { figures, span, measured } = request;
  const { spindleToPivotMm: d, effectiveLengthMm: L } = figures;
  if (d === null || L === null) {
    return none(statement('tip-runs-straight'));
  }
  const paper = papers[request.paper];
  const x0 = SPINDLE_X;
  const y0 = paper.height - SPINDLE_UP;
  const nearest = Math.abs(L - d);
  const from = Math.max(span.inner - 3, nearest);
  const rightmost = x0 + span.outer * Math.sin(bearing(d, L, span.outer + 3));
  if (!(rightmost <= paper.width - MARGIN)) {
    const mostMm = paper.width - MARGIN - x0;
    return none(statement('groove-off-paper', { radiusMm: span.outer, paper: paper.title, mostMm }));
  }
  const at = (r: number): { x: number; y: number; outward: number } => {
    const outward = bearing(d, L, r) - Math.PI / 2;
    return { x: x0 + r * Math.cos(outward), y: y0 + r * Math.sin(outward), outward };
  };
  const yPivot = y0 - d;
  const tip: Tip = { x: x0, y: yPivot, r: L, at, inner: span.inner, outer: span.outer, from };
  const grids = nullGrids(tip, figures.nullPointsMm);
  const shapes: Shape[] = [
    ...spindleHole(x0, y0),
    ...arcLines(tip, y0, (groove) => bearing(d, L, groove)),
    ...grids.shapes,
  ];

  const title = say(statement('arc-title'));
  const left = x0 + 8;
  const width = paper.width - MARGIN - 16 - left;
  // below the pivot's own words, where a short arm has its pivot among them
  const top = yPivot > TOP - 8 ? Math.max(TOP, yPivot + 12) : TOP;
  shapes.push(text(left, top, title, { size: 5 }));
  const words = wordBlock(
    left,
    top + 6,
    width,
    [
      ...templateNumbers(request),
      say(statement('arc-use')),
      say(statement('arc-read')),
      say(statement('caution-template')),
      correctionWords(measured),
    ],
    LEAST,
  );
  shapes.push(...words);
  shapes.push(...barDown(paper.width - MARGIN - 6, TOP), ...barAcross(left + 8, paper.height - MARGIN - 4));
  shapes.push(...arcLabels(tip, paper, shapes));

  const pages = sheetsToPivot(shapes, { x0, y0, d, paper }, request);
  return {
    found: true,
    value: {
      sheets: pages.sheets,
      spindle: { sheet: 0, x: x0, y: y0 },
      pivot: { sheet: pages.sheets.length - 1, x: x0, y: pages.pivotY },
      points: grids.points,
    },
  };
}
