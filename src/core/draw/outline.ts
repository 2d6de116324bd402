/** Shapes → outlines of straight pieces and Bézier curves, with the printer's own scale taken out. */
import { within } from '../units/bounds.ts';
import type { Shape, Text } from './shape.ts';

export type Segment =
  | { readonly op: 'move'; readonly x: number; readonly y: number }
  | { readonly op: 'line'; readonly x: number; readonly y: number }
  | {
      readonly op: 'curve';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly x: number;
      readonly y: number;
    }
  | { readonly op: 'close' };

/** What a drawing is multiplied by so that the printer makes true mm of it. */
export interface Scale {
  readonly x: number;
  readonly y: number;
}

export const trueScale: Scale = { x: 1, y: 1 };

/**
 * Scale that undoes a printer which makes `x` mm and `y` mm of 100 mm.
 *
 * @param x mm, 95–105
 * @param y mm, 95–105; as x where left out
 * @throws RangeError naming the value and the bounds
 */
export function printerScale(x: number, y: number = x): Scale {
  for (const [name, value] of [
    ['across', x],
    ['down', y],
  ] as const) {
    within(
      `what the printer made of 100 mm ${name} the paper (at 100 %, not fitted to the page)`,
      value,
      95,
      105,
      'mm',
    );
  }
  return { x: 100 / x, y: 100 / y };
}

/** The place on the paper that stays where it is, mm. */
export interface Middle {
  readonly x: number;
  readonly y: number;
}

export const middleOf = ({ width, height }: { readonly width: number; readonly height: number }): Middle => ({
  x: width / 2,
  y: height / 2,
});

/** Where a coordinate goes, mm. */
export const scaled = (value: number, scale: number, middle: number): number =>
  scale === 1 ? value : middle + (value - middle) * scale;

/** Longest piece of an arc that one Bézier curve stands for: 15° keeps it within 1e-8 of the radius. */
const PIECE = Math.PI / 12;

function arcSegments(cx: number, cy: number, r: number, from: number, to: number): Segment[] {
  const pieces = Math.max(1, Math.ceil(Math.abs(to - from) / PIECE - 1e-9));
  const step = (to - from) / pieces;
  const k = (4 / 3) * Math.tan(step / 4);
  const out: Segment[] = [{ op: 'move', x: cx + r * Math.cos(from), y: cy + r * Math.sin(from) }];
  for (let i = 0; i < pieces; i++) {
    const [c0, s0] = [Math.cos(from + i * step), Math.sin(from + i * step)];
    const [c1, s1] = [Math.cos(from + (i + 1) * step), Math.sin(from + (i + 1) * step)];
    out.push({
      op: 'curve',
      x1: cx + r * (c0 - k * s0),
      y1: cy + r * (s0 + k * c0),
      x2: cx + r * (c1 + k * s1),
      y2: cy + r * (s1 - k * c1),
      x: cx + r * c1,
      y: cy + r * s1,
    });
  }
  if (Math.abs(Math.abs(to - from) - 2 * Math.PI) < 1e-12) out.push({ op: 'close' });
  return out;
}

function segments(shape: Exclude<Shape, Text>): Segment[] {
  switch (shape.shape) {
    case 'line':
      return [
        { op: 'move', x: shape.x1, y: shape.y1 },
        { op: 'line', x: shape.x2, y: shape.y2 },
      ];
    case 'arc':
      return arcSegments(shape.cx, shape.cy, shape.r, shape.from, shape.to);
    case 'polygon':
      return [...shape.points.map(([x, y], i): Segment => ({ op: i === 0 ? 'move' : 'line', x, y })), { op: 'close' }];
  }
}

/**
 * Outline of a shape as it must be printed, mm. The drawing is stretched or shrunk about the middle of its paper, so that
 * what the printer needs larger grows to all sides alike and stays on the sheet.
 *
 * @param middle of the paper, mm
 */
export function outline(
  shape: Exclude<Shape, Text>,
  scale: Scale = trueScale,
  middle: Middle = { x: 0, y: 0 },
): readonly Segment[] {
  const X = (x: number): number => scaled(x, scale.x, middle.x);
  const Y = (y: number): number => scaled(y, scale.y, middle.y);
  return segments(shape).map((segment): Segment => {
    if (segment.op === 'close') return segment;
    const end = { x: X(segment.x), y: Y(segment.y) };
    return segment.op === 'curve'
      ? { op: 'curve', x1: X(segment.x1), y1: Y(segment.y1), x2: X(segment.x2), y2: Y(segment.y2), ...end }
      : { op: segment.op, ...end };
  });
}
