import { expect, test } from 'vitest';
import { arcLabels, type TipArc } from './arcLabels.ts';
import { clearOf, drawnBy } from './clear.ts';
import { textWidth } from './lettering.ts';
import { papers } from './paper.ts';
import { line, type Shape, type Text } from './shape.ts';

/** An arc whose pivot stands 222 mm above the spindle at (34, 237), as on a sheet. */
function tipArc(inner: number, outer: number, from = inner - 3): TipArc {
  const [d, L] = [222, 239.296];
  const at = (r: number) => {
    const bearing = Math.acos((d * d + r * r - L * L) / (2 * d * r));
    return { x: 34 + r * Math.sin(bearing), y: 237 - r * Math.cos(bearing) };
  };
  return { x: 34, y: 15, r: L, at, inner, outer, from };
}

const said = (texts: readonly Text[]): string[] =>
  texts.map(({ x, y, anchor, text }) => `${x.toFixed(2)} ${y.toFixed(2)} ${anchor} ${text}`);

/** Where words come to lie one after the other, when each place that they took is taken before they are asked again. */
function placesOf(arc: TipArc, which: (text: Text) => boolean, times: number): string[] {
  const taken: Shape[] = [];
  return Array.from({ length: times }, () => {
    const found = arcLabels(arc, papers.a4, taken).filter(which);
    const [first] = found;
    // a speck in the middle of the first line is enough to take the place
    if (first !== undefined) {
      const back = { start: 0.5, middle: 0, end: -0.5 }[first.anchor] * textWidth(first.text, first.size);
      taken.push(line(first.x + back, first.y - 0.5, first.x + back, first.y - 0.5));
    }
    return first === undefined ? 'left out' : `${first.x.toFixed(2)} ${first.y.toFixed(2)} ${first.anchor}`;
  });
}

test('on an empty sheet every word is there, clear of the others and of the edge', () => {
  const texts = arcLabels(tipArc(60.325, 146.05), papers.a4, []);
  expect(said(texts.filter(({ text }) => text.length > 1))).toEqual([
    '90.53 247.37 end innermost groove 60.325 mm',
    '178.92 199.43 middle outermost groove',
    '178.92 202.87 middle 146.05 mm',
    '104.94 248.54 middle 70 mm',
    '115.39 245.10 middle 80 mm',
    '125.65 241.20 middle 90 mm',
    '135.73 236.85 middle 100 mm',
    '145.62 232.03 middle 110 mm',
    '155.32 226.75 middle 120 mm',
    '164.80 221.02 middle 130 mm',
    '174.06 214.83 middle 140 mm',
  ]);
  const letters = texts.filter(({ text }) => text.length === 1);
  expect(letters.map(({ text }) => text).join('')).toBe('tip follows this arc');
  texts.forEach((text, i) => {
    if (text.text.length > 1) expect(clearOf([text], drawnBy(texts.filter((_, j) => j !== i))), text.text).toBe(true);
  });
});

test('radii are named at every 10 mm from the inner to the outer groove, both ends counted', () => {
  const named = (inner: number, outer: number): string[] =>
    arcLabels(tipArc(inner, outer), papers.a4, []).flatMap(({ text }) => (/^\d+0 mm$/.test(text) ? [text] : []));
  expect(named(70, 110)).toEqual(['110 mm', '70 mm', '80 mm', '90 mm', '100 mm', '110 mm']);
  expect(named(70.1, 109.9)).toEqual(['80 mm', '90 mm', '100 mm']);
});

test('a groove that the arc does not pass is not named', () => {
  const names = (from: number): boolean =>
    arcLabels(tipArc(60, 146, from), papers.a4, []).some(({ text }) => text.includes('innermost'));
  expect([names(57), names(60), names(60.1)]).toEqual([true, true, false]);
});

test('the innermost groove’s name steps aside, further back each time, else below and above', () => {
  expect(placesOf(tipArc(60, 146), ({ text }) => text.includes('innermost'), 12)).toEqual([
    '90.18 247.46 end',
    '90.18 249.86 end',
    '90.18 243.86 end',
    '90.18 252.36 end',
    '90.18 241.36 end',
    '73.18 247.46 end',
    '73.18 249.86 end',
    '73.18 243.86 end',
    '73.18 252.36 end',
    '73.18 241.36 end',
    'left out',
    'left out',
  ]);
});

test('the outermost groove’s name steps above and below its mark, further right each time', () => {
  expect(placesOf(tipArc(60, 120), ({ text }) => text.includes('outermost'), 14)).toEqual([
    '155.13 215.04 middle',
    '155.13 228.54 middle',
    '155.13 231.54 middle',
    '155.13 209.54 middle',
    '155.13 234.54 middle',
    '161.13 212.54 middle',
    '167.13 215.04 start',
    '167.13 228.54 start',
    '167.13 212.54 start',
    '167.13 231.54 start',
    '167.13 209.54 start',
    '167.13 234.54 start',
    'left out',
    'left out',
  ]);
});

test('a radius stands below the arc, else above it, else it is left out', () => {
  expect(placesOf(tipArc(60, 146), ({ text }) => text === '140 mm', 3)).toEqual([
    '174.06 214.83 middle',
    '170.04 209.10 middle',
    'left out',
  ]);
});

test('what the arc is for stands along it, within or outside it, further from the middle each time, at last beside its ends', () => {
  const arc = tipArc(60, 146);
  expect(placesOf(arc, ({ text }) => text === 't', 8)).toEqual([
    '126.68 234.10 middle',
    '128.57 238.08 middle',
    '128.16 233.47 middle',
    '130.08 237.43 middle',
    '129.64 232.83 middle',
    '131.58 236.78 middle',
    '131.11 232.17 middle',
    '133.08 236.11 middle',
  ]);
  // a short arc has no room along it
  const short = tipArc(60, 62);
  const beside = (...drawn: Shape[]) =>
    said(arcLabels(short, papers.a4, drawn).filter(({ text }) => text.startsWith('tip')));
  const across = [88.5, 91, 94, 97].map((x) => line(x, 225, x, 265));
  const nextTo = (to: number) => [line(101, 220, 160, 220), line(115, 220, 115, to)];
  expect([beside(...across), beside(...across, ...nextTo(246)), beside(...across, ...nextTo(270))]).toEqual([
    ['100.45 245.45 start tip follows this arc'],
    ['88.00 244.65 end tip follows this arc'],
    ['88.00 244.65 end tip follows this arc'],
  ]);
});

test('nothing is written within 8 mm of the paper’s edge', () => {
  for (const paper of [papers.a4, papers.letter]) {
    for (const [dx, dy] of [
      [0, 0],
      [-90, 0],
      [60, 0],
      [0, 60],
      [0, -240],
    ]) {
      const arc = tipArc(60, 120);
      const moved: TipArc = {
        ...arc,
        x: arc.x + dx,
        y: arc.y + dy,
        at: (r) => ({ x: arc.at(r).x + dx, y: arc.at(r).y + dy }),
      };
      for (const text of arcLabels(moved, paper, [])) {
        const from = { start: 0, middle: -0.5, end: -1 }[text.anchor] * textWidth(text.text, text.size);
        if (text.text.length === 1) continue;
        const to = from + textWidth(text.text, text.size);
        expect(text.x + from >= 8 && text.x + to <= paper.width - 8, `${text.text} ${dx} ${dy}`).toBe(true);
        expect(text.y - 0.72 * text.size >= 8 && text.y + 0.2 * text.size <= paper.height - 8).toBe(true);
      }
    }
  }
});
