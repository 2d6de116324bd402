/** Drawings as lines of text, so that a test can hold a whole sheet. */
import type { Drawing, Shape } from './shape.ts';

const short = (value: number): string => {
  const text = value.toFixed(3).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};
const row = (...values: readonly number[]): string => values.map(short).join(' ');

/** Places to 1 µm, angles to 1 mrad; what is not said is ink, 0.1 mm wide, 2.75 mm high. */
export function toldShape(shape: Shape): string {
  const role = shape.role === 'ink' ? '' : ` ${shape.role}`;
  if (shape.shape === 'text') {
    const size = shape.size === 2.75 ? '' : ` size ${short(shape.size)}`;
    const turned = shape.angle === 0 ? '' : ` turned ${short(shape.angle)}`;
    const anchor = shape.anchor === 'start' ? '' : ` ${shape.anchor}`;
    return `text ${row(shape.x, shape.y)}${anchor}${turned}${size}${role}: ${shape.text}`;
  }
  const width = shape.width === 0.1 ? '' : ` width ${short(shape.width)}`;
  const dash = shape.dash === undefined ? '' : ` dash ${row(...shape.dash)}`;
  const style = `${role}${width}${dash}`;
  switch (shape.shape) {
    case 'line':
      return `line ${row(shape.x1, shape.y1, shape.x2, shape.y2)}${style}`;
    case 'arc':
      return `arc ${row(shape.cx, shape.cy, shape.r, shape.from, shape.to)}${style}`;
    case 'polygon':
      return `${shape.filled ? 'filled' : 'polygon'} ${shape.points.map((point) => row(...point)).join(', ')}${style}`;
  }
}

/** Letters along an arc on one line, the others a line each. */
export const toldSheet = ({ title, width, height, shapes }: Drawing): string =>
  [`${title}, ${row(width, height)}`, ...shapes.map(toldShape)].join('\n');
