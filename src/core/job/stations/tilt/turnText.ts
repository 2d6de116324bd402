/** Takes an advice's sentences apart for the card: direction and shim are drawn large, what is left is shown below. */
import type { Advice } from '../../../advise/document.ts';
import { shim, shimWords, turnWords } from '../../../advise/turn.ts';

export interface TurnText {
  readonly way: 'clockwise' | 'anticlockwise';
  /** which side goes up, which down */
  readonly sides: string;
  readonly shimMm: number;
  readonly shimSide: 'spindle' | 'rim';
  /** sentences that belong to this case: a hidden tilt, an assumption */
  readonly more: string;
}

/** @param tiltDeg tilt present, clockwise seen from the cartridge's face positive */
export function turnText(tiltDeg: number, advice: Advice): TurnText {
  const { mm, side } = shim(tiltDeg);
  const words = turnWords(tiltDeg);
  return {
    way: advice.direction?.startsWith('anticlockwise') ? 'anticlockwise' : 'clockwise',
    sides: words
      .slice(words.indexOf(':') + 1)
      .trim()
      .replace(/^./, (letter) => letter.toUpperCase()),
    shimMm: mm,
    shimSide: side,
    more: advice.why.replace(words, '').replace(shimWords(tiltDeg), '').trim(),
  };
}

/** dB; separations closer than this look alike on a meter */
const ALIKE_DB = 1;

/** The bench's usual rule would see nothing wrong here. */
export const looksEqual = (leftToRightDb: number, rightToLeftDb: number): boolean =>
  Math.abs(leftToRightDb - rightToLeftDb) < ALIKE_DB;
