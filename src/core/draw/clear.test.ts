import { describe, expect, test } from 'vitest';
import { clearOf, drawnBy } from './clear.ts';
import { textWidth } from './lettering.ts';
import { arc, circle, line, polygon, type Shape, type Text, text } from './shape.ts';

/** "mmm" 10 mm high from (50, 50): 24.99 mm long, from 2 mm below its foot to 7.2 mm above it. */
const SIZE = 10;
const LONG = textWidth('mmm', SIZE);
const words = (style: Partial<Text> = {}): Text => text(50, 50, 'mmm', { size: SIZE, ...style });
const clear = (from: Text, ...drawn: Shape[]): boolean => clearOf([from], drawnBy(drawn));

const dot = (x: number, y: number): Shape => line(x, y, x, y);

describe('the box of words', () => {
  test.each([
    ['start', 0],
    ['middle', -LONG / 2],
    ['end', -LONG],
  ] as const)(
    'from its %s it reaches as far as its letters do, to a tall one’s top and a low one’s foot',
    (anchor, from) => {
      for (const angle of [0, 0.7, Math.PI / 2, -2.1]) {
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const at = (along: number, down: number): Shape => dot(50 + along * c - down * s, 50 + along * s + down * c);
        const is = (along: number, down: number): boolean => clear(words({ anchor, angle }), at(along, down));
        for (const along of [0.01, LONG / 3, LONG - 0.01]) {
          expect([is(from + along, 1.99), is(from + along, -7.19)], `${angle} ${along}`).toEqual([false, false]);
          expect([is(from + along, 2.01), is(from + along, -7.21)], `${angle} ${along}`).toEqual([true, true]);
        }
        for (const down of [1.9, -3, -7.1]) {
          expect([is(from - 0.01, down), is(from + LONG + 0.01, down)], `${angle} ${down}`).toEqual([true, true]);
          expect([is(from + 0.01, down), is(from + LONG - 0.01, down)], `${angle} ${down}`).toEqual([false, false]);
        }
      }
    },
  );
});

describe('words keep clear of', () => {
  test('nothing at all', () => {
    expect(clear(words())).toBe(true);
    expect(clearOf([], drawnBy([dot(50, 50)]))).toBe(true);
  });

  test('lines that cross them, whichever way they are drawn, and not of those that pass a corner', () => {
    const corner = 50 + LONG;
    for (const [x1, y1, x2, y2, free] of [
      [60, 30, 60, 70, false],
      [40, 48, 90, 48, false],
      [60, 46, 62, 47, false],
      [40, 52.01, 90, 52.01, true],
      // past the lower right corner at 45°, a hair within and a hair outside
      [corner - 10, 61.9, corner + 10, 41.9, false],
      [corner - 10, 62.1, corner + 10, 42.1, true],
      [corner - 10, 32.7, corner + 10, 52.7, true],
      [corner - 10, 32.9, corner + 10, 52.9, false],
      [40, 32.7, 60, 52.8, false],
      [40, 41.9, 60, 61.9, false],
      [40, 42.1, 60, 62.1, true],
      [40, 52.7, 60, 32.7, true],
      [40, 52.9, 60, 32.9, false],
    ] as const) {
      expect(clear(words(), line(x1, y1, x2, y2)), `${x1} ${y1} ${x2} ${y2}`).toBe(free);
      expect(clear(words(), line(x2, y2, x1, y1)), `back ${x1} ${y1}`).toBe(free);
    }
  });

  test('an arc where it runs, not of its centre nor of the part that is not drawn', () => {
    expect(clear(words(), circle(62, 47, 40))).toBe(true);
    expect(clear(words(), circle(62, 47, 11))).toBe(false);
    expect(clear(words(), circle(62, 87, 40))).toBe(false);
    expect(clear(words(), circle(62, 97, 40))).toBe(true);
    // an arc of 40 mm about (62, 87): straight up it runs through the words, elsewhere it does not
    const part = (from: number, to: number): boolean => clear(words(), arc(62, 87, 40, from, to));
    expect([part(-1.7, -1.5), part(-1.5, -1.7)]).toEqual([false, false]);
    expect([part(0, Math.PI), part(-0.9, 0.5), part(2, 4.2), part(4.2, 2)]).toEqual([true, true, true, true]);
    expect([part(-Math.PI, -Math.PI / 2), part(-Math.PI / 2, 0)]).toEqual([false, false]);
    // a small one is no point: four chords at least
    expect(clear(words(), circle(60, 52.3, 0.2))).toBe(true);
    expect(clear(words(), circle(60, 52.1, 0.2))).toBe(false);
    expect(clear(words(), circle(60, 42.55, 0.2))).toBe(true);
    expect(clear(words(), circle(60, 42.65, 0.2))).toBe(false);
  });

  test('chords of an arc stay within a sixth of a mm of it', () => {
    for (const r of [3, 20, 100]) {
      for (let a = 0.05; a < 6.28; a += 0.2) {
        const on = (out: number): Text =>
          text(100 + (r + out) * Math.cos(a), 100 + (r + out) * Math.sin(a), 'i', { size: 0.01, anchor: 'middle' });
        expect([clear(on(0.05), circle(100, 100, r)), clear(on(-0.2), circle(100, 100, r))]).toEqual([true, true]);
      }
    }
  });

  test('what a polygon covers, its inside with it', () => {
    const square = (x: number, y: number, size: number) =>
      polygon(
        [
          [x, y],
          [x + size, y],
          [x + size, y + size],
          [x, y + size],
        ],
        true,
      );
    expect(clear(words(), square(0, 0, 200))).toBe(false);
    expect(clear(words(), square(60, 45, 1))).toBe(false);
    expect(clear(words(), square(60, 52.1, 5))).toBe(true);
    expect(clear(words(), square(60, 37.7, 5))).toBe(true);
    expect(clear(words(), square(44.9, 45, 5))).toBe(true);
    expect(clear(words(), square(50 + LONG + 0.1, 45, 5))).toBe(true);
  });

  test('other words, turned or not', () => {
    expect(clear(words(), text(50, 59.3, 'mmm', { size: SIZE }))).toBe(true);
    expect(clear(words(), text(50, 59.1, 'mmm', { size: SIZE }))).toBe(false);
    expect(clear(words(), text(50 + LONG + 0.1, 50, 'mmm', { size: SIZE }))).toBe(true);
    expect(clear(words(), text(50 + LONG - 0.1, 50, 'mmm', { size: SIZE }))).toBe(false);
    expect(clear(words(), text(60, 70, 'mmm', { size: SIZE, angle: -Math.PI / 2 }))).toBe(false);
    expect(clear(words(), text(60, 52.1, 'mmm', { size: SIZE, angle: Math.PI / 2 }))).toBe(true);
    // two that cross at 45°, each with its corners outside the other
    expect(clear(words(), text(55, 30, 'mmm', { size: SIZE, angle: Math.PI / 4 }))).toBe(false);
    expect(clear(words(), text(80, 30, 'mmm', { size: SIZE, angle: Math.PI / 4 }))).toBe(true);
  });

  test('everything: one that is struck is enough, of the words as of what is drawn', () => {
    const [free, struck] = [words(), text(50, 100, 'mmm', { size: SIZE })];
    const drawn = drawnBy([line(0, 0, 1, 1), line(60, 90, 60, 110), line(0, 5, 1, 6)]);
    expect([clearOf([free], drawn), clearOf([struck], drawn)]).toEqual([true, false]);
    expect([clearOf([free, struck], drawn), clearOf([struck, free], drawn)]).toEqual([false, false]);
  });
});
