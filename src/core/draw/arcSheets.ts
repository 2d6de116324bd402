/** Sheets from the spindle's upwards until the pivot is on one, with the line of sight on all and the marks they are joined by. */
import { say, statement } from '../words/statement.ts';
import { LEAST, textWidth } from './lettering.ts';
import { barAcross, barDown, MARGIN, type Paper, wordBlock } from './paper.ts';
import { circle, type Drawing, line, type Shape, text } from './shape.ts';
import { type TemplateRequest, templateNumbers } from './template.ts';

/** Height by which neighbouring sheets lie over one another, mm. */
const OVERLAP = 24;
/** Where the words begin: below the join marks, mm. */
export const TOP = MARGIN + OVERLAP + 4;

/** The sight line keeps clear of the spindle's cross and of the pivot's, mm. */
const CLEAR = 8;
const PIVOT_CLEAR = 8;

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

/** Where the spindle stands on the first sheet, and how far above it the pivot, mm. */
interface SightLine {
  readonly x0: number;
  readonly y0: number;
  readonly d: number;
  readonly paper: Paper;
}

interface Sheet {
  readonly shapes: Shape[];
  /** how far up from the first sheet, mm */
  readonly lift: number;
}

/** The line of sight and the join marks onto every sheet. */
function joinSheets(sheets: readonly Sheet[], { x0, y0, d, paper }: SightLine): void {
  const yPivot = y0 - d;
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
}

/** @param first what is drawn on the spindle's sheet */
export function sheetsToPivot(
  first: Shape[],
  sight: SightLine,
  request: TemplateRequest,
): { readonly sheets: readonly Drawing[]; readonly pivotY: number } {
  const { x0, y0, d, paper } = sight;
  const yPivot = y0 - d;
  const title = say(statement('arc-title'));
  const left = x0 + 8;
  const sheets: Sheet[] = [{ shapes: first, lift: 0 }];
  const usable = paper.height - 2 * MARGIN;
  while (yPivot + sheets[sheets.length - 1].lift < MARGIN + 7) {
    sheets.push({ shapes: [], lift: sheets[sheets.length - 1].lift + usable - OVERLAP });
  }
  joinSheets(sheets, sight);
  const last = sheets[sheets.length - 1];
  const py = yPivot + last.lift;
  last.shapes.push(line(x0 - 6, py, x0 + 6, py), line(x0, py - 6, x0, py + 6), circle(x0, py, 2));
  if (sheets.length > 1) {
    last.shapes.push(
      ...wordBlock(
        left,
        py > paper.height / 2 ? TOP + 4 : py + 16,
        paper.width - MARGIN - 16 - left,
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
  return {
    pivotY: py,
    sheets: sheets.map((sheet, i) => ({
      title: sheets.length === 1 ? title : say(statement('page-of', { title, page: i + 1, pages: sheets.length })),
      width: paper.width,
      height: paper.height,
      shapes: sheet.shapes,
    })),
  };
}
