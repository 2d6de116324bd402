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
import { arcLabels } from './arcLabels.ts';
import { ACROSS, gridAt } from './grid.ts';
import { LEAST, textWidth } from './lettering.ts';
import { barAcross, barDown, correctionWords, MARGIN, type Paper, papers, spindleHole, wordBlock } from './paper.ts';
import { arc, circle, type Drawing, line, type Shape, text } from './shape.ts';
import { pointName, type Template, type TemplateRequest, templateNumbers } from './template.ts';

/** Height by which neighbouring sheets lie over one another, mm. */
const OVERLAP = 24;
/** Where the spindle stands on the first sheet: from the left, and from the bottom, mm. */
const SPINDLE_X = 34;
const SPINDLE_UP = 60;

/** Where the words begin: below the join marks, mm. */
const TOP = MARGIN + OVERLAP + 4;

/** Bearing of the tip from the line spindle to pivot, rad. */
const bearing = (d: number, L: number, r: number): number =>
  Math.acos(Math.max(-1, Math.min(1, (d * d + r * r - L * L) / (2 * d * r))));

/** Two crosses in a circle, one at each side of the paper, at a height on the sheet. */
function registerMarks(paper: Paper, y: number, letter: string): Shape[] {
  return [MARGIN + 8, paper.width - MARGIN - 8].flatMap((x, i) => [
    circle(x, y, 2.5),
    line(x - 5, y, x + 5, y),
    line(x, y - 5, x, y + 5),
    text(x + (i === 0 ? 6 : -6), y - 1, `join ${letter}${i + 1}`, {
      size: LEAST,
      anchor: i === 0 ? 'start' : 'end',
    }),
  ]);
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
  const [from, to] = [Math.max(span.inner - 3, nearest), span.outer + 3];
  const [alphaInner, alphaOuter] = [bearing(d, L, from), bearing(d, L, to)];
  const rightmost = x0 + span.outer * Math.sin(alphaOuter);
  if (!(rightmost <= paper.width - MARGIN)) {
    const mostMm = paper.width - MARGIN - x0;
    return none(statement('groove-off-paper', { radiusMm: span.outer, paper: paper.title, mostMm }));
  }
  const at = (r: number): { x: number; y: number; outward: number } => {
    const outward = bearing(d, L, r) - Math.PI / 2;
    return { x: x0 + r * Math.cos(outward), y: y0 + r * Math.sin(outward), outward };
  };
  const yPivot = y0 - d;
  const shapes: Shape[] = [...spindleHole(x0, y0)];

  // the tip's arc about the pivot
  const a1 = Math.atan2(y0 - from * Math.cos(alphaInner) - yPivot, from * Math.sin(alphaInner));
  const a2 = Math.atan2(y0 - to * Math.cos(alphaOuter) - yPivot, to * Math.sin(alphaOuter));
  shapes.push(arc(x0, yPivot, L, Math.min(a1, a2), Math.max(a1, a2)));
  for (let r = Math.ceil(span.inner / 10) * 10; r <= span.outer; r += 10) {
    const { x, y } = at(r);
    const [ux, uy] = [(x - x0) / L, (y - yPivot) / L];
    shapes.push(line(x, y, x + 1.6 * ux, y + 1.6 * uy));
  }
  for (const r of [span.inner, span.outer]) {
    if (r < nearest) continue;
    const { x, y, outward } = at(r);
    const [c, s] = [Math.cos(outward), Math.sin(outward)];
    shapes.push(line(x + 3 * s, y - 3 * c, x - 3 * s, y + 3 * c));
  }
  const nulls = figures.nullPointsMm.filter((r) => r >= from && r <= to);
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
  const tipArc = { x: x0, y: yPivot, r: L, at, inner: span.inner, outer: span.outer, from };
  shapes.push(...arcLabels(tipArc, paper, shapes));

  // sheets upwards until the pivot is on one
  const sheets: { shapes: Shape[]; lift: number }[] = [{ shapes, lift: 0 }];
  const usable = paper.height - 2 * MARGIN;
  while (yPivot + sheets[sheets.length - 1].lift < MARGIN + 7) {
    sheets.push({ shapes: [], lift: sheets[sheets.length - 1].lift + usable - OVERLAP });
  }
  sheets.forEach((sheet, i) => {
    const { lift } = sheet;
    const bottom = i === 0 ? y0 - CLEAR : paper.height - MARGIN;
    const top = Math.max(yPivot + lift + PIVOT_CLEAR, MARGIN);
    sheet.shapes.push(line(x0, bottom, x0, top));
    const long = say(statement('sight-line', { pivotMm: d }));
    const words = textWidth(long, LEAST) < bottom - top - 4 ? long : 'sight line';
    if (bottom - top > 16) {
      sheet.shapes.push(
        text(x0 - 1.4, (top + bottom) / 2, words, { size: LEAST, anchor: 'middle', angle: -Math.PI / 2 }),
      );
    }
    if (i > 0)
      sheet.shapes.push(...registerMarks(paper, paper.height - MARGIN - OVERLAP / 2, String.fromCharCode(64 + i)));
    if (i < sheets.length - 1)
      sheet.shapes.push(...registerMarks(paper, MARGIN + OVERLAP / 2, String.fromCharCode(65 + i)));
  });
  const last = sheets[sheets.length - 1];
  const py = yPivot + last.lift;
  last.shapes.push(line(x0 - 6, py, x0 + 6, py), line(x0, py - 6, x0, py + 6), circle(x0, py, 2));
  if (sheets.length > 1) {
    last.shapes.push(
      ...wordBlock(
        left,
        py > paper.height / 2 ? TOP + 4 : py + 16,
        width,
        [
          say(statement('pivot-page', { title, pages: sheets.length })),
          ...templateNumbers(request),
          say(statement('pivot-cut-away')),
        ],
        LEAST,
      ),
    );
  }
  sheets.slice(1).forEach((sheet, i) => {
    // a pivot in the upper half has its words there: the bar goes to the foot, above the join marks
    const foot = i === sheets.length - 2 && py < paper.height / 2;
    const y = foot ? paper.height - MARGIN - OVERLAP - 8 : MARGIN + 14;
    sheet.shapes.push(...barDown(paper.width - MARGIN - 6, TOP), ...barAcross(left + 8, y));
  });
  const pivotWords = text(x0 + 9, py + 0.8, say(statement('pivot-centre')), {
    size: LEAST,
  });
  last.shapes.push(pivotWords);
  const drawings: Drawing[] = sheets.map((sheet, i) => ({
    title: sheets.length === 1 ? title : say(statement('page-of', { title, page: i + 1, pages: sheets.length })),
    width: paper.width,
    height: paper.height,
    shapes: sheet.shapes,
  }));
  return {
    found: true,
    value: {
      sheets: drawings,
      spindle: { sheet: 0, x: x0, y: y0 },
      pivot: { sheet: sheets.length - 1, x: x0, y: py },
      points,
    },
  };
}

/** The sight line keeps clear of the spindle's cross and of the pivot's, mm. */
const CLEAR = 8;
const PIVOT_CLEAR = 8;
