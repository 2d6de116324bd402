/** Drawing → SVG text, true mm. */
import { type Middle, middleOf, outline, type Scale, scaled, trueScale } from './outline.ts';
import type { Drawing, Shape } from './shape.ts';

/** Five decimals: 10 nm, and the same text on every machine. */
const mm = (value: number): string => {
  const text = value.toFixed(5).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function element(shape: Shape, scale: Scale, middle: Middle): string {
  if (shape.shape === 'text') {
    const [x, y] = [mm(scaled(shape.x, scale.x, middle.x)), mm(scaled(shape.y, scale.y, middle.y))];
    const turn = shape.angle === 0 ? '' : ` transform="rotate(${mm((shape.angle * 180) / Math.PI)} ${x} ${y})"`;
    return `<text class="${shape.role}" x="${x}" y="${y}" font-size="${mm(shape.size)}" text-anchor="${shape.anchor}"${turn}>${escaped(shape.text)}</text>`;
  }
  const d = outline(shape, scale, middle)
    .map((s) => {
      switch (s.op) {
        case 'move':
          return `M${mm(s.x)} ${mm(s.y)}`;
        case 'line':
          return `L${mm(s.x)} ${mm(s.y)}`;
        case 'curve':
          return `C${mm(s.x1)} ${mm(s.y1)} ${mm(s.x2)} ${mm(s.y2)} ${mm(s.x)} ${mm(s.y)}`;
        case 'close':
          return 'Z';
      }
      return '';
    })
    .join('');
  if (shape.shape === 'polygon' && shape.filled) {
    return `<path class="${shape.role} filled" d="${d}" fill="#000" stroke="none"/>`;
  }
  const dash = shape.dash === undefined ? '' : ` stroke-dasharray="${mm(shape.dash[0])} ${mm(shape.dash[1])}"`;
  return `<path class="${shape.role}" d="${d}" stroke-width="${mm(shape.width)}"${dash}/>`;
}

/**
 * SVG of a drawing, width and height in mm. Each shape carries its role as a class; without a style sheet all is ink.
 *
 * @param scale what the printer's own scale asks for
 */
export function toSvg(drawing: Drawing, scale: Scale = trueScale): string {
  const { width, height, title, shapes } = drawing;
  const middle = middleOf(drawing);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}" fill="none" stroke="#000" role="img">`,
    `<title>${escaped(title)}</title>`,
    '<g font-family="Helvetica, Arial, sans-serif">',
    ...shapes.map((shape) =>
      shape.shape === 'text'
        ? element(shape, scale, middle).replace('<text ', '<text fill="#000" stroke="none" ')
        : element(shape, scale, middle),
    ),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}
