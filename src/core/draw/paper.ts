/** Paper, and what every sheet to scale carries: 100 mm bars, the spindle's hole, the words. */
import { say, statement } from '../words/statement.ts';
import { brokenLines, LEAST } from './lettering.ts';
import { circle, line, type Shape, text } from './shape.ts';

export type PaperName = 'a4' | 'letter';

export interface Paper {
  readonly name: PaperName;
  readonly title: string;
  /** mm */
  readonly width: number;
  readonly height: number;
}

export const papers: Readonly<Record<PaperName, Paper>> = {
  a4: { name: 'a4', title: 'A4', width: 210, height: 297 },
  letter: { name: 'letter', title: 'Letter', width: 215.9, height: 279.4 },
};

/** What a printer may leave blank on each side, mm. */
export const MARGIN = 8;

/** Diameter of a record's centre hole, mm: 7.24 +0.09 −0, IEC 98:1958 to 1987 (seen second-hand). */
export const CENTRE_HOLE = 7.24;

/** Where the printer's own scale was measured, in words; empty where it was not. */
export function correctionWords(measured: readonly [number, number] | null): string {
  if (measured === null) return say(statement('printer-not-measured'));
  const [across, down] = measured;
  return say(statement('printer-corrected', { across, down }));
}

/** A 100 mm bar to the right of (x, y), its name below it. */
export function barAcross(x: number, y: number): Shape[] {
  return [
    line(x, y, x + 100, y),
    ...Array.from({ length: 11 }, (_, i) => {
      const long = i === 0 || i === 10 ? 3 : i === 5 ? 2 : 1;
      return line(x + 10 * i, y - long, x + 10 * i, y + (i === 0 || i === 10 ? 3 : 0));
    }),
    text(x + 50, y + 3.2, say(statement('bar-across')), {
      size: LEAST,
      anchor: 'middle',
    }),
  ];
}

/** A 100 mm bar down from (x, y), its name to the left of it, read from the right. */
export function barDown(x: number, y: number): Shape[] {
  return [
    line(x, y, x, y + 100),
    ...Array.from({ length: 11 }, (_, i) => {
      const long = i === 0 || i === 10 ? 3 : i === 5 ? 2 : 1;
      return line(x - (i === 0 || i === 10 ? 3 : 0), y + 10 * i, x + long, y + 10 * i);
    }),
    text(x - 1.6, y + 50, say(statement('bar-down')), {
      size: LEAST,
      anchor: 'middle',
      angle: -Math.PI / 2,
    }),
  ];
}

/** The spindle's hole with its punch mark, the words below it. */
export function spindleHole(x: number, y: number, size = LEAST): Shape[] {
  return [
    circle(x, y, CENTRE_HOLE / 2),
    circle(x, y, 0.6),
    line(x - 6, y, x + 6, y),
    line(x, y - 6, x, y + 6),
    text(x, y + 9, say(statement('prick-the-cross')), { size, anchor: 'middle' }),
    text(x, y + 9 + 1.25 * size, say(statement('cut-out-hole', { mm: CENTRE_HOLE })), { size, anchor: 'middle' }),
  ];
}

/** A block of words from (x, y) down, each paragraph broken to the width. */
export function wordBlock(
  x: number,
  y: number,
  width: number,
  paragraphs: readonly string[],
  size = LEAST,
): readonly Shape[] {
  const shapes: Shape[] = [];
  let at = y;
  for (const paragraph of paragraphs) {
    for (const words of brokenLines(paragraph, size, width)) {
      shapes.push(text(x, at, words, { size }));
      at += size * 1.25;
    }
    at += size * 0.5;
  }
  return shapes;
}

/** A speed as the trade writes it: 33⅓, 16⅔, 45, 78.26. */
export function speedWords(rpm: number): string {
  const thirds = Math.round(3 * rpm);
  if (Math.abs(3 * rpm - thirds) < 0.002 && thirds % 3 !== 0) {
    return `${Math.floor(thirds / 3)}${thirds % 3 === 1 ? '⅓' : '⅔'}`;
  }
  return rpm.toFixed(2).replace(/\.?0+$/, '');
}
