/**
 * Two-point template: a grid at each null radius, each on its own ray from the spindle. The sheet is turned about the spindle
 * until the tip meets a point, so it serves any arm; only the twist is read from it.
 */

import { type Found, none } from '../words/found.ts';
import { say, statement } from '../words/statement.ts';
import { clearOf, drawnBy } from './clear.ts';
import { ACROSS, gridAt } from './grid.ts';
import { LEAST } from './lettering.ts';
import { barAcross, barDown, correctionWords, MARGIN, papers, spindleHole, wordBlock } from './paper.ts';
import { line, type Shape, type Text, text } from './shape.ts';
import { pointName, type Template, type TemplateRequest, templateNumbers } from './template.ts';

/** Ray of the inner null, rad clockwise from the right. */
const LOW = (8 * Math.PI) / 180;
/** Rays of the outer null: the first on which its grid and the inner one's keep clear of one another is taken. */
const HIGH = [-45, -50, -55, -60, -65, -70, -75, -80, -85].map((deg) => (deg * Math.PI) / 180);

const wordsOf = (shapes: readonly Shape[]): readonly Text[] => shapes.filter((shape) => shape.shape === 'text');

/** Neither one's words lie on what the other draws. */
const keepClear = (a: readonly Shape[], b: readonly Shape[]): boolean =>
  clearOf(wordsOf(a), drawnBy(b)) && clearOf(wordsOf(b), drawnBy(a));

export function twoPointTemplate(request: TemplateRequest): Found<Template> {
  const { figures, span, measured } = request;
  const nulls = figures.nullPointsMm.filter((r) => r >= span.inner - 0.01 && r <= span.outer + 0.01);
  if (nulls.length === 0) {
    return none(statement('no-null-in-span', { innerMm: span.inner, outerMm: span.outer }));
  }
  const paper = papers[request.paper];
  const [x0, y0] = [40, 176];
  const shapes: Shape[] = [...spindleHole(x0, y0)];
  const pointAt = (radius: number, i: number, outward: number) => {
    const [c, s] = [Math.cos(outward), Math.sin(outward)];
    const [x, y] = [x0 + radius * c, y0 + radius * s];
    const middle = (radius - ACROSS + 8) / 2;
    const grid = gridAt({ x, y, outward, name: pointName(i, nulls.length), radius });
    return {
      shapes: [
        line(x0 + 8 * c, y0 + 8 * s, x - (ACROSS + 1) * c, y - (ACROSS + 1) * s, { role: 'fine' }),
        text(
          x0 + middle * c + 1.2 * s,
          y0 + middle * s - 1.2 * c,
          say(statement(i === 0 ? 'radius-to-first' : 'radius-to-second')),
          { size: LEAST, anchor: 'middle', angle: outward },
        ),
        ...grid.shapes,
      ] as readonly Shape[],
      place: { sheet: 0, x, y, radius, crossing: grid.crossing },
    };
  };
  const points = nulls.map((radius, i) => {
    const ray = i === 0 ? LOW : (HIGH.find((high) => keepClear(pointAt(radius, i, high).shapes, shapes)) ?? HIGH[0]);
    const chosen = pointAt(radius, i, ray);
    shapes.push(...chosen.shapes);
    return chosen.place;
  });
  const title = say(statement('two-point-title'));
  shapes.push(text(MARGIN + 4, MARGIN + 8, title, { size: 5 }));
  shapes.push(...wordBlock(MARGIN + 4, MARGIN + 14, 76, templateNumbers(request)));
  shapes.push(...barDown(paper.width - MARGIN - 6, MARGIN + 6));
  const width = paper.width - 2 * MARGIN - 8;
  const steps = [
    say(statement('two-point-use')),
    say(statement('two-point-read')),
    say(statement('caution-template')),
    correctionWords(measured),
  ];
  const block = wordBlock(MARGIN + 4, 232, width, steps, LEAST);
  shapes.push(...block, ...barAcross(MARGIN + 12, paper.height - MARGIN - 8));
  return {
    found: true,
    value: {
      sheets: [{ title, width: paper.width, height: paper.height, shapes }],
      spindle: { sheet: 0, x: x0, y: y0 },
      pivot: null,
      points,
    },
  };
}
