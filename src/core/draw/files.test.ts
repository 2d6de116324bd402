import { expect, test } from 'vitest';
import { printerScale } from './outline.ts';
import { toPdf } from './pdf.ts';
import { arc, circle, type Drawing, line, polygon, type Shape, text } from './shape.ts';
import { toSvg } from './svg.ts';

/** 1 inch by 2: 72 points by 144. */
const sheet = (...shapes: Shape[]): Drawing => ({ title: 'T', width: 25.4, height: 50.8, shapes });

const triangle = [
  [0, 0],
  [2.54, 0],
  [2.54, 5.08],
] as const;

const pageOf = (drawing: Drawing, scale?: { x: number; y: number }): string[] => {
  const pdf = String.fromCharCode(...toPdf([drawing], scale));
  return (/stream\n([\s\S]*?)\nendstream/.exec(pdf)?.[1] ?? '').split('\n').slice(1);
};
const svgOf = (drawing: Drawing, scale?: { x: number; y: number }): string[] =>
  toSvg(drawing, scale).split('\n').slice(3, -3);

test('a page of PDF: lines, arcs and polygons in points from the lower left', () => {
  expect(
    pageOf(
      sheet(
        line(0, 0, 12.7, 25.4),
        line(2.54, 50.8, 25.4, 50.8, { width: 0.254, dash: [2.54, 1.27] }),
        polygon(triangle, true),
        polygon(triangle, false, { width: 2.54 }),
        arc(12.7, 25.4, 2.54, 0, Math.PI / 12),
      ),
    ),
  ).toEqual([
    '0.2835 w [] 0 d 0 144 m 36 72 l S',
    '0.72 w [7.2 3.6] 0 d 7.2 0 m 72 0 l S',
    '0 144 m 7.2 144 l 7.2 129.6 l h f',
    '7.2 w [] 0 d 0 144 m 7.2 144 l 7.2 129.6 l h S',
    // its handles 4/3 of the tangent of 3.75° long, of the radius
    '0.2835 w [] 0 d 43.2 72 m 43.2 71.3708 43.1175 70.7443 42.9547 70.1365 c S',
  ]);
});

test('words in PDF: from their anchor, turned clockwise as on the paper, in hexadecimal', () => {
  const size = 10;
  // AB is 667 + 667 thousandths of 10 mm wide: 13.34 mm, 37.8142 points
  const words = (anchor: 'start' | 'middle' | 'end', angle = 0): string =>
    pageOf(sheet(text(12.7, 25.4, 'AB', { size, anchor, angle })))[0];
  expect(words('start')).toBe('BT /F1 28.3465 Tf 1 0 0 1 36 72 Tm <4142> Tj ET');
  expect(words('middle')).toBe('BT /F1 28.3465 Tf 1 0 0 1 17.0929 72 Tm <4142> Tj ET');
  expect(words('end')).toBe('BT /F1 28.3465 Tf 1 0 0 1 -1.8142 72 Tm <4142> Tj ET');
  // a quarter turn clockwise runs down the paper: back from the anchor is up
  expect(words('end', Math.PI / 2)).toBe('BT /F1 28.3465 Tf 0 -1 1 0 36 109.8142 Tm <4142> Tj ET');
  expect(words('middle', Math.PI / 6)).toBe('BT /F1 28.3465 Tf 0.866 -0.5 0.5 0.866 19.626 81.4535 Tm <4142> Tj ET');
  expect(pageOf(sheet(text(0, 0, '\u00b0\n')))[0]).toContain('<b03f>');
});

test('the printer’s scale stretches places about the middle of the sheet, not the letters', () => {
  const scale = printerScale(96, 104);
  const shape = line(0, 0, 25.4, 25.4);
  const words = text(0, 50.8, 'A', { anchor: 'end', size: 10 });
  // half of 72 and 144 points, divided by 0.96 and 1.04
  expect(pageOf(sheet(shape, words), scale)).toEqual([
    '0.2835 w [] 0 d -1.5 141.2308 m 73.5 72 l S',
    'BT /F1 28.3465 Tf 1 0 0 1 -20.4071 2.7692 Tm <41> Tj ET',
  ]);
  expect(svgOf(sheet(shape, words), scale)).toEqual([
    '<path class="ink" d="M-0.52917 0.97692L25.92917 25.4" stroke-width="0.1"/>',
    '<text fill="#000" stroke="none" class="ink" x="-0.52917" y="49.82308" font-size="10" text-anchor="end">A</text>',
  ]);
});

test('a PDF of two pages, object by object', () => {
  const pdf = String.fromCharCode(...toPdf([sheet(line(0, 0, 1, 1)), { ...sheet(), title: 'U', width: 50.8 }]));
  const objects = pdf.split('endobj\n');
  expect(objects.map((object) => object.replace(/stream[\s\S]*/, 'stream'))).toEqual([
    '%PDF-1.6\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>\n',
    '2 0 obj\n<< /Type /Pages /Count 2 /Kids [5 0 R 7 0 R] >>\n',
    '3 0 obj\n<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>\n',
    '4 0 obj\n<< /Title <54> /Producer <506c617474657273696465> >>\n',
    '5 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 72 144] /Resources << /Font << /F1 3 0 R >> >> /Contents 6 0 R >>\n',
    '6 0 obj\n<< /Length 51 >>\nstream',
    '7 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 144 144] /Resources << /Font << /F1 3 0 R >> >> /Contents 8 0 R >>\n',
    '8 0 obj\n<< /Length 7 >>\nstream',
    expect.stringMatching(
      /^xref\n0 9\n0000000000 65535 f \n(\d{10} 00000 n \n){8}trailer\n<< \/Size 9 \/Root 1 0 R \/Info 4 0 R >>\nstartxref\n\d+\n%%EOF\n$/,
    ),
  ]);
});

test('a drawing as SVG, element by element', () => {
  expect(
    svgOf(
      sheet(
        line(0, 0, -0.000001, 1.25, { role: 'fine' }),
        line(1, 2, 3, 4.123456, { width: 0.25, dash: [2, 1.5] }),
        polygon(triangle, true, { role: 'soft' }),
        polygon(triangle, false),
        arc(10, 20, 3, 0, Math.PI / 12),
        text(1, 2, '"<&>', { role: 'accent' }),
        text(3, 4, 'b', { anchor: 'middle', angle: Math.PI / 4, size: 2.5 }),
      ),
    ),
  ).toEqual([
    '<path class="fine" d="M0 0L0 1.25" stroke-width="0.1"/>',
    '<path class="ink" d="M1 2L3 4.12346" stroke-width="0.25" stroke-dasharray="2 1.5"/>',
    '<path class="soft filled" d="M0 0L2.54 0L2.54 5.08Z" fill="#000" stroke="none"/>',
    '<path class="ink" d="M0 0L2.54 0L2.54 5.08Z" stroke-width="0.1"/>',
    '<path class="ink" d="M13 20C13 20.26217 12.96563 20.52322 12.89778 20.77646" stroke-width="0.1"/>',
    '<text fill="#000" stroke="none" class="accent" x="1" y="2" font-size="2.8" text-anchor="start">&quot;&lt;&amp;&gt;</text>',
    '<text fill="#000" stroke="none" class="ink" x="3" y="4" font-size="2.5" text-anchor="middle" transform="rotate(45 3 4)">b</text>',
  ]);
});

test('a whole circle is closed, a part of one is not, whichever way it runs', () => {
  const path = (shape: Shape): string => /d="([^"]*)"/.exec(svgOf(sheet(shape))[0])?.[1] ?? '';
  expect(path(circle(5, 5, 2)).match(/C/g)).toHaveLength(24);
  expect(path(circle(5, 5, 2)).endsWith('Z')).toBe(true);
  expect(path(arc(5, 5, 2, 2 * Math.PI, 0)).endsWith('Z')).toBe(true);
  expect(path(arc(5, 5, 2, 0, 6.28))).not.toContain('Z');
  for (const [turn, pieces] of [
    [1, 1],
    [15, 1],
    [15.1, 2],
    [-30, 2],
    [-31, 3],
    [0, 1],
  ]) {
    expect(path(arc(5, 5, 2, 1, 1 + (turn * Math.PI) / 180)).match(/C/g), `${turn}°`).toHaveLength(pieces);
  }
});
