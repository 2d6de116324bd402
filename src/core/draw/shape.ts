/**
 * Drawings as plain data. Everything is mm on the paper: x to the right, y down from the top left corner; angles rad,
 * clockwise as seen on the paper, 0 to the right.
 */

/** What a shape is for: drawings on paper are all ink, a screen may give each role its colour. */
export type Role = 'ink' | 'fine' | 'soft' | 'accent' | 'groove' | 'body';

interface Stroked {
  readonly role: Role;
  /** line width, mm */
  readonly width: number;
  /** dash and gap, mm; drawn through where left out */
  readonly dash?: readonly [number, number];
}

export interface Line extends Stroked {
  readonly shape: 'line';
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** A circle, or the part of it from one angle to another. */
export interface Arc extends Stroked {
  readonly shape: 'arc';
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly from: number;
  readonly to: number;
}

export interface Polygon extends Stroked {
  readonly shape: 'polygon';
  readonly points: readonly (readonly [number, number])[];
  /** filled without an outline; else outlined without filling */
  readonly filled: boolean;
}

export interface Text {
  readonly shape: 'text';
  readonly role: Role;
  readonly x: number;
  readonly y: number;
  /** height of a capital and its descender together, mm */
  readonly size: number;
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
  /** turn about (x, y) */
  readonly angle: number;
}

export type Shape = Line | Arc | Polygon | Text;

/** Shapes on a sheet of a given size. */
export interface Drawing {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/** Hairline of everything that is measured against, mm. */
const HAIRLINE = 0.1;

export const line = (x1: number, y1: number, x2: number, y2: number, style: Partial<Stroked> = {}): Line => ({
  shape: 'line',
  x1,
  y1,
  x2,
  y2,
  role: 'ink',
  width: HAIRLINE,
  ...style,
});

export const arc = (
  cx: number,
  cy: number,
  r: number,
  from: number,
  to: number,
  style: Partial<Stroked> = {},
): Arc => ({ shape: 'arc', cx, cy, r, from, to, role: 'ink', width: HAIRLINE, ...style });

export const circle = (cx: number, cy: number, r: number, style: Partial<Stroked> = {}): Arc =>
  arc(cx, cy, r, 0, 2 * Math.PI, style);

export const polygon = (
  points: readonly (readonly [number, number])[],
  filled: boolean,
  style: Partial<Stroked> = {},
): Polygon => ({ shape: 'polygon', points, filled, role: 'ink', width: HAIRLINE, ...style });

export const text = (
  x: number,
  y: number,
  words: string,
  style: Partial<Pick<Text, 'size' | 'anchor' | 'angle' | 'role'>> = {},
): Text => ({ shape: 'text', x, y, text: words, size: 2.8, anchor: 'start', angle: 0, role: 'ink', ...style });
