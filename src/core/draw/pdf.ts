/**
 * Drawings → PDF bytes: paths and Helvetica text, one page a drawing. Pure, so that the page in a browser makes the very
 * same bytes as the command line; no date, so that the same drawing is always the same file.
 *
 * The catalogue asks the print dialogue for no scaling (`PrintScaling /None`).
 */
import { textWidth, winAnsi } from './lettering.ts';
import { middleOf, outline, type Scale, scaled, trueScale } from './outline.ts';
import type { Drawing, Shape, Text } from './shape.ts';

/** Points per mm, exact by definition: 72 points an inch. */
const POINT = 72 / 25.4;

/** Four decimals of a point: 35 nm. */
const number = (value: number): string => {
  const text = value.toFixed(4).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};

const hex = (text: string): string =>
  `<${winAnsi(text)
    .map((code) => code.toString(16).padStart(2, '0'))
    .join('')}>`;

type Size = Pick<Drawing, 'width' | 'height'>;

function textOps(shape: Text, scale: Scale, sheet: Size): string {
  const middle = middleOf(sheet);
  const size = shape.size * POINT;
  const width = textWidth(shape.text, shape.size);
  const back = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? width / 2 : width;
  const [c, s] = [Math.cos(shape.angle), Math.sin(shape.angle)];
  const x = (scaled(shape.x, scale.x, middle.x) - back * c) * POINT;
  const y = (sheet.height - scaled(shape.y, scale.y, middle.y) + back * s) * POINT;
  // the paper's y runs down, the PDF's up: a clockwise turn is a negative one there
  return `BT /F1 ${number(size)} Tf ${number(c)} ${number(-s)} ${number(s)} ${number(c)} ${number(x)} ${number(y)} Tm ${hex(shape.text)} Tj ET`;
}

function shapeOps(shape: Shape, scale: Scale, sheet: Size): string {
  if (shape.shape === 'text') return textOps(shape, scale, sheet);
  const X = (x: number): string => number(x * POINT);
  const Y = (y: number): string => number((sheet.height - y) * POINT);
  const path = outline(shape, scale, middleOf(sheet))
    .map((s) => {
      switch (s.op) {
        case 'move':
          return `${X(s.x)} ${Y(s.y)} m`;
        case 'line':
          return `${X(s.x)} ${Y(s.y)} l`;
        case 'curve':
          return `${X(s.x1)} ${Y(s.y1)} ${X(s.x2)} ${Y(s.y2)} ${X(s.x)} ${Y(s.y)} c`;
        case 'close':
          return 'h';
      }
      return '';
    })
    .join(' ');
  if (shape.shape === 'polygon' && shape.filled) return `${path} f`;
  const dash = shape.dash === undefined ? '[] 0 d' : `[${shape.dash.map((x) => number(x * POINT)).join(' ')}] 0 d`;
  return `${number(shape.width * POINT)} w ${dash} ${path} S`;
}

/**
 * PDF of one or more drawings.
 *
 * @param scale what the printer's own scale asks for
 * @throws RangeError where there is nothing to draw
 */
export function toPdf(drawings: readonly Drawing[], scale: Scale = trueScale): Uint8Array<ArrayBuffer> {
  if (drawings.length === 0) throw new RangeError('there are 0 drawings; a PDF needs at least 1');
  const objects: string[] = [];
  const pageId = (i: number): number => 5 + 2 * i;
  objects.push('<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>');
  objects.push(
    `<< /Type /Pages /Count ${drawings.length} /Kids [${drawings.map((_, i) => `${pageId(i)} 0 R`).join(' ')}] >>`,
  );
  objects.push('<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>');
  objects.push(`<< /Title ${hex(drawings[0].title)} /Producer ${hex('Platterside')} >>`);
  drawings.forEach((drawing, i) => {
    const { width, height, shapes } = drawing;
    const content = ['0 G 0 g', ...shapes.map((shape) => shapeOps(shape, scale, drawing))].join('\n');
    objects.push(
      `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 ${number(width * POINT)} ${number(height * POINT)}] /Resources << /Font << /F1 3 0 R >> >> /Contents ${pageId(i) + 1} 0 R >>`,
    );
    objects.push(`<< /Length ${content.length} >>\nstream\n${content}\nendstream`);
  });
  let file = '%PDF-1.6\n';
  const places = objects.map((object, i) => {
    const place = file.length;
    file += `${i + 1} 0 obj\n${object}\nendobj\n`;
    return place;
  });
  const xref = file.length;
  file += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('')}`;
  file += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R /Info 4 0 R >>\nstartxref\n${xref}\n%%EOF\n`;
  // every character written above is ASCII: text goes in as hexadecimal
  const bytes = new Uint8Array(file.length);
  for (let i = 0; i < file.length; i++) bytes[i] = file.charCodeAt(i);
  return bytes;
}
