import { describe, expect, test } from 'vitest';
import { brokenLines, lettersOnArc, textWidth, winAnsi } from './lettering.ts';

describe('codes and widths', () => {
  // widths: Adobe core 14 AFM, Helvetica, from memory
  test.each([
    [' ', 0x20, 278],
    ['!', 0x21, 278],
    ['0', 0x30, 556],
    ['@', 0x40, 1015],
    ['A', 0x41, 667],
    ['M', 0x4d, 833],
    ['i', 0x69, 222],
    ['m', 0x6d, 833],
    ['~', 0x7e, 584],
    ['°', 0xb0, 400],
    ['±', 0xb1, 584],
    ['·', 0xb7, 278],
    ['¼', 0xbc, 834],
    ['½', 0xbd, 834],
    ['¾', 0xbe, 834],
    ['×', 0xd7, 584],
    ['ö', 0xf6, 556],
    ['’', 0x92, 222],
    ['–', 0x96, 556],
    ['−', 0x96, 556],
    ['漢', 0x3f, 556],
    ['\u007f', 0x3f, 556],
    ['\n', 0x3f, 556],
  ])('%j is written as it is in WinAnsi, at its own width', (letter, code, width) => {
    expect(winAnsi(letter)).toEqual([code]);
    expect(textWidth(letter, 1000)).toBe(width);
    expect(textWidth(`${letter}${letter}`, 2)).toBeCloseTo((4 * width) / 1000, 12);
  });

  test('a third is written out, a text of nothing has no width', () => {
    expect(String.fromCharCode(...winAnsi('33⅓'))).toBe('33 1/3');
    expect(String.fromCharCode(...winAnsi('16⅔'))).toBe('16 2/3');
    expect(textWidth('⅔', 1000)).toBe(278 + 556 + 278 + 556);
    expect([textWidth('', 5), winAnsi('')]).toEqual([0, []]);
  });
});

test('a line takes words as long as they fit to the last hair; a longer word stands alone', () => {
  const two = textWidth('ab cd', 3);
  expect(brokenLines('ab cd ef', 3, two)).toEqual(['ab cd', 'ef']);
  expect(brokenLines('ab cd', 3, two - 1e-6)).toEqual(['ab', 'cd']);
  expect(brokenLines('a', 3, 0.1)).toEqual(['a']);
  expect(brokenLines('immeasurably a b', 3, textWidth('a b', 3))).toEqual(['immeasurably', 'a b']);
});

describe('letters along a circle', () => {
  const centre = { x: 10, y: 20, r: 50 };

  test.each([
    ['from-outside', 1],
    ['from-inside', -1],
  ] as const)('read %s each stands in the middle of its own width, its foot on the circle', (read, way) => {
    for (const middle of [-Math.PI / 2, 0.4]) {
      const letters = lettersOnArc(centre, middle, 'mi', 4, read);
      // m is 833 wide, i 222: their middles lie 111 before and 416.5 behind the middle of both
      const places = [-111, 416.5].map((thousandths) => middle + (way * 4 * thousandths) / 1000 / 50);
      expect(letters).toEqual(
        places.map((a, i) => ({
          shape: 'text',
          role: 'ink',
          text: 'mi'[i],
          size: 4,
          anchor: 'middle',
          x: expect.closeTo(10 + 50 * Math.cos(a), 9),
          y: expect.closeTo(20 + 50 * Math.sin(a), 9),
          angle: expect.closeTo(a + (way * Math.PI) / 2, 9),
        })),
      );
    }
  });

  test('they are read from outside where nothing is said', () => {
    expect(lettersOnArc(centre, 0, 'ab', 4)).toEqual(lettersOnArc(centre, 0, 'ab', 4, 'from-outside'));
    expect(lettersOnArc(centre, 0, '', 4)).toEqual([]);
  });
});
