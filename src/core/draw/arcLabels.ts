/** Words along the tip's arc, each where it lies clear of the grids, the arc and the other words. */
import { say, statement } from '../words/statement.ts';
import { clearOf, type Drawn, drawnBy } from './clear.ts';
import { LEAST, lettersOnArc, textWidth } from './lettering.ts';
import type { Paper } from './paper.ts';
import { polygon, type Shape, type Text, text } from './shape.ts';

/** The arc on the sheet, mm. */
export interface TipArc {
  /** centre: the pivot */
  readonly x: number;
  readonly y: number;
  /** radius: the effective length */
  readonly r: number;
  /** where the tip stands on a groove of that radius */
  readonly at: (groove: number) => { readonly x: number; readonly y: number };
  readonly inner: number;
  readonly outer: number;
  /** drawn from the groove nearest to the spindle that the tip passes */
  readonly from: number;
}

const SIZE = LEAST;
/** Nothing is written nearer to the paper's edge, mm. */
const EDGE = 8;

/** The paper's edge, as four bands that nothing may touch. */
function edgeBands({ width, height }: Paper): readonly Shape[] {
  const band = (x1: number, y1: number, x2: number, y2: number): Shape =>
    polygon(
      [
        [x1, y1],
        [x2, y1],
        [x2, y2],
        [x1, y2],
      ],
      true,
    );
  return [
    band(-200, -200, EDGE, height + 200),
    band(width - EDGE, -200, width + 200, height + 200),
    band(-200, -200, width + 200, EDGE),
    band(-200, height - EDGE, width + 200, height + 200),
  ];
}

/** Numbers that go up from zero in steps, each with its negative. */
const outwards = (most: number, step: number): readonly number[] =>
  Array.from({ length: 2 * Math.floor(most / step) + 1 }, (_, i) => (i % 2 === 0 ? 1 : -1) * Math.ceil(i / 2) * step);

/** What the arc is for: along it where there is room, else beside one of its ends. */
function arcName(arc: TipArc): readonly (readonly Text[])[] {
  const words = say(statement('tip-follows-arc'));
  const size = LEAST;
  const middle = (arc.inner + arc.outer) / 2;
  const half = (arc.outer - arc.inner) / 2;
  const along = outwards(half, 1.5).flatMap((by) => {
    const { x, y } = arc.at(middle + by);
    const direction = Math.atan2(y - arc.y, x - arc.x);
    return [arc.r - 1.4, arc.r + 3].map((r) =>
      lettersOnArc({ x: arc.x, y: arc.y, r }, direction, words, size, 'from-inside'),
    );
  });
  const [end, start] = [arc.at(arc.outer + 3), arc.at(arc.from)];
  const beside = outwards(12, 1).flatMap((by) => [
    [text(end.x + 2, end.y + by, words, { size })],
    [text(start.x - 2, start.y + by, words, { size, anchor: 'end' as const })],
  ]);
  return [...along, ...beside];
}

/** The innermost groove's name, to the left of its mark. */
function innerName(arc: TipArc): readonly (readonly Text[])[] {
  const { x, y } = arc.at(arc.inner);
  return [3, 5, 7, 9, 11, 13, 16, 20, 24].flatMap((back) =>
    [0.6, 3, -3, 5.5, -5.5].map((down) => [
      text(x - back, y + down, say(statement('innermost-groove', { mm: arc.inner })), {
        size: SIZE,
        anchor: 'end' as const,
      }),
    ]),
  );
}

/** The outermost groove's name: two lines above its mark, below it, or to the right. */
function outerName(arc: TipArc): readonly (readonly Text[])[] {
  const { x, y } = arc.at(arc.outer);
  const lines = ['outermost groove', `${arc.outer} mm`] as const;
  const wide = textWidth(lines[0], SIZE);
  return [0, 3, 6, 9, 12].flatMap((right) =>
    [-7.5, 6, -10, 9, -13, 12].map((down) =>
      lines.map((words, i) =>
        text(x + 2 + right, y + down + 1.25 * SIZE * i, words, {
          size: SIZE,
          anchor: right > wide / 2 ? 'start' : 'middle',
        }),
      ),
    ),
  );
}

/** Radii at every 10 mm, where there is room: below the arc, else above it. */
function radiusNames(arc: TipArc): readonly (readonly (readonly Text[])[])[] {
  const names: (readonly (readonly Text[])[])[] = [];
  for (let groove = Math.ceil(arc.inner / 10) * 10; groove <= arc.outer; groove += 10) {
    const { x, y } = arc.at(groove);
    const [ux, uy] = [(x - arc.x) / arc.r, (y - arc.y) / arc.r];
    names.push(
      [4.4, -2.6].map((out) => [
        text(x + out * ux, y + out * uy + 0.4, `${groove} mm`, { size: SIZE, anchor: 'middle' }),
      ]),
    );
  }
  return names;
}

/**
 * @param drawn everything on the sheet so far
 * @returns words that lie clear of it and of one another; a radius for which there is no room is left out
 */
export function arcLabels(arc: TipArc, paper: Paper, drawn: readonly Shape[]): readonly Text[] {
  let taken: Drawn = drawnBy([...drawn, ...edgeBands(paper)]);
  const found: Text[] = [];
  const place = (choices: Iterable<readonly Text[]>): void => {
    for (const words of choices) {
      if (!clearOf(words, taken)) continue;
      found.push(...words);
      taken = [...taken, ...drawnBy(words)];
      return;
    }
  };
  if (arc.inner >= arc.from) place(innerName(arc));
  place(outerName(arc));
  place(arcName(arc));
  for (const choices of radiusNames(arc)) place(choices);
  return found;
}
