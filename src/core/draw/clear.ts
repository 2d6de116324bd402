/** Words that keep clear of what is drawn: the first of several places where they neither cross a line nor lie on other words. */
import { textWidth } from './lettering.ts';
import type { Arc, Shape, Text } from './shape.ts';

type Point = readonly [number, number];

/** Corners of the letters' box: from a descender to a capital. */
function letterBox({ x, y, size, text, anchor, angle }: Text): readonly Point[] {
  const width = textWidth(text, size);
  const from = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const at = (along: number, down: number): Point => [x + along * c - down * s, y + along * s + down * c];
  return [at(from, 0.2 * size), at(from + width, 0.2 * size), at(from + width, -0.72 * size), at(from, -0.72 * size)];
}

/** Chords of at most about 1 mm. */
function chords({ cx, cy, r, from, to }: Arc): readonly (readonly Point[])[] {
  const pieces = Math.max(4, Math.ceil(Math.abs(to - from) * r));
  const at = (i: number): Point => {
    const a = from + ((to - from) * i) / pieces;
    return [cx + r * Math.cos(a), cy + r * Math.sin(a)];
  };
  return Array.from({ length: pieces }, (_, i) => [at(i), at(i + 1)]);
}

/** Convex pieces that a shape covers. */
function pieces(shape: Shape): readonly (readonly Point[])[] {
  switch (shape.shape) {
    case 'text':
      return [letterBox(shape)];
    case 'line':
      return [
        [
          [shape.x1, shape.y1],
          [shape.x2, shape.y2],
        ],
      ];
    case 'arc':
      return chords(shape);
    case 'polygon':
      return [shape.points];
  }
}

/** A line can be laid between two convex pieces. */
function apart(a: readonly Point[], b: readonly Point[]): boolean {
  return [a, b].some((piece) =>
    piece.some(([x, y], i) => {
      const [nextX, nextY] = piece[(i + 1) % piece.length];
      const [nx, ny] = [nextY - y, x - nextX];
      const along = (points: readonly Point[]): readonly number[] => points.map((p) => p[0] * nx + p[1] * ny);
      const [one, other] = [along(a), along(b)];
      return Math.max(...one) < Math.min(...other) || Math.max(...other) < Math.min(...one);
    }),
  );
}

/** A convex piece with the upright box around it: most pairs are told apart by that alone. */
interface Piece {
  readonly points: readonly Point[];
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function boxed(points: readonly Point[]): Piece {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { points, left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** What is drawn, ready to be asked about many places. */
export type Drawn = readonly Piece[];

export const drawnBy = (shapes: readonly Shape[]): Drawn => shapes.flatMap(pieces).map(boxed);

/** Whether words lie clear of everything drawn. */
export function clearOf(words: readonly Text[], drawn: Drawn): boolean {
  return words
    .map(letterBox)
    .map(boxed)
    .every((box) =>
      drawn.every(
        (piece) =>
          piece.right < box.left ||
          piece.left > box.right ||
          piece.bottom < box.top ||
          piece.top > box.bottom ||
          apart(box.points, piece.points),
      ),
    );
}
