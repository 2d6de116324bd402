import { expect, it } from 'vitest';
import { letterheadSchema, MOST_LOGO, noLetterhead } from './letterhead.ts';
import { countWords, MOST_JPEG_BYTES, newPhotographSchema } from './photographs.ts';

it('photographs are counted in words', () => {
  expect([0, 1, 2].map(countWords)).toEqual(['0 photographs', '1 photograph', '2 photographs']);
});

it('a photograph is taken at Intake, Fit or Hand over, with an id, within its size', () => {
  const one = { id: 'p-1', station: 'intake', jpeg: 'AAAA' };
  const takes = (more: object) => newPhotographSchema.safeParse({ ...one, ...more }).success;
  expect(newPhotographSchema.parse(one)).toEqual({ ...one, note: '' });
  expect(['intake', 'fit', 'hand-over', 'run'].map((station) => takes({ station }))).toEqual([true, true, true, false]);
  expect(['', 'a b', 'x'.repeat(64), 'x'.repeat(65)].map((id) => takes({ id }))).toEqual([false, false, true, false]);
  const most = Math.ceil(MOST_JPEG_BYTES / 3) * 4;
  expect([most, most + 4].map((length) => takes({ jpeg: 'A'.repeat(length) }))).toEqual([true, false]);
  expect(takes({ jpeg: 'no base64' })).toBe(false);
  expect([500, 501].map((length) => takes({ note: 'x'.repeat(length) }))).toEqual([true, false]);
});

it('a letterhead’s logo is a small PNG or SVG in itself, and nothing that fetches', () => {
  const takes = (logo: string | null) => letterheadSchema.safeParse({ logo }).success;
  const png = 'data:image/png;base64,iVBORw0KGgoAAAA';
  const svg = 'data:image/svg+xml;base64,PHN2Zz4';
  expect([png, `${png}=`, `${png}==`, svg, `${svg}=`, `${svg}==`, null].map(takes)).not.toContain(false);
  const odd = [
    ...['', 'x', ` ${png}`, `${png}===`, `${svg}===`, `${png} `, `${svg}"`, `x${svg}`],
    ...['data:image/png;base64,iVBORw0KGgo', 'data:image/svg+xml;base64,', 'data:image/png;base64,AAAA'],
    ...[
      'data:image/svgxml;base64,AAAA',
      'https://example.org/a.png',
      'data:image/jpeg;base64,AAAA',
      `${png}!`,
      `${svg}!=`,
    ],
  ];
  expect(odd.filter(takes)).toEqual([]);
  const long = (length: number) => svg + 'A'.repeat(length - svg.length);
  expect([MOST_LOGO, MOST_LOGO + 1].map((length) => takes(long(length)))).toEqual([true, false]);
  expect(letterheadSchema.parse({})).toEqual(noLetterhead);
  expect(letterheadSchema.parse({ name: ' Bench ', address: ' Street ' })).toEqual({
    name: 'Bench',
    address: 'Street',
    logo: null,
  });
  expect([
    letterheadSchema.safeParse({ name: 'x'.repeat(81) }).success,
    letterheadSchema.safeParse({ address: 'x'.repeat(161) }).success,
  ]).toEqual([false, false]);
});
