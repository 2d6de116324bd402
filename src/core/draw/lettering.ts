/** Widths of Helvetica, so that text can be centred and broken into lines, and its one-byte code in a PDF. */
import { type Text, text } from './shape.ts';

/** Advance widths of codes 32 to 126, thousandths of the size (the standard metrics of the font). */
const ASCII =
  '278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278 278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 500 334 260 334 584'
    .split(' ')
    .map(Number);

/** Other characters: code in the PDF's WinAnsi encoding, and width. */
const OTHERS: Readonly<Record<string, readonly [number, number]>> = {
  '°': [0xb0, 400],
  '±': [0xb1, 584],
  '·': [0xb7, 278],
  '¼': [0xbc, 834],
  '½': [0xbd, 834],
  '¾': [0xbe, 834],
  '×': [0xd7, 584],
  ö: [0xf6, 556],
  '’': [0x92, 222],
  '–': [0x96, 556],
};

/** Characters that the encoding lacks, as it can say them. */
const INSTEAD: Readonly<Record<string, string>> = { '⅓': ' 1/3', '⅔': ' 2/3', '−': '–' };

/** One-byte codes of a text. A character that cannot be written becomes a question mark. */
export function winAnsi(text: string): readonly number[] {
  return [...text]
    .flatMap((c) => [...(INSTEAD[c] ?? c)])
    .map((c) => {
      const code = c.codePointAt(0) ?? 0;
      if (code >= 32 && code <= 126) return code;
      return OTHERS[c]?.[0] ?? 0x3f;
    });
}

/** Least size of anything written, mm: from the top of a tall letter to the foot of a low one it is 2.5 mm. */
export const LEAST = 2.75;

/** Width of a text at a size, mm. */
export function textWidth(text: string, size: number): number {
  let sum = 0;
  for (const c of [...text].flatMap((x) => [...(INSTEAD[x] ?? x)])) {
    const code = c.codePointAt(0) ?? 0;
    sum += code >= 32 && code <= 126 ? ASCII[code - 32] : (OTHERS[c]?.[1] ?? 556);
  }
  return (sum * size) / 1000;
}

/** Text broken at blanks into lines of at most a width, mm. A word that is longer stands alone. */
export function brokenLines(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, size) <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/**
 * Text along a circle. Read from outside, the letters' feet point at the centre; read from inside, their heads do.
 *
 * @param middle direction of the text's middle from the centre, rad clockwise from the right
 */
export function lettersOnArc(
  centre: { readonly x: number; readonly y: number; readonly r: number },
  middle: number,
  words: string,
  size: number,
  read: 'from-outside' | 'from-inside' = 'from-outside',
): readonly Text[] {
  const { x, y, r } = centre;
  const way = read === 'from-outside' ? 1 : -1;
  let along = -textWidth(words, size) / 2;
  return [...words].map((letter) => {
    const width = textWidth(letter, size);
    const a = middle + (way * (along + width / 2)) / r;
    along += width;
    return text(x + r * Math.cos(a), y + r * Math.sin(a), letter, {
      size,
      anchor: 'middle',
      angle: a + (way * Math.PI) / 2,
    });
  });
}
