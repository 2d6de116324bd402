/** Which of the pieces that a band was read in stands for it. */
import type { Band } from '../record/band.ts';
import { type ReadPiece, soundsAlike } from './follower.ts';

/** A band as it was followed, and what was read of it. */
export interface ReadBand {
  readonly band: Omit<Band, 'index'>;
  readonly pieces: readonly ReadPiece[];
}

/** a reading may stick out of its band by this much, s: edges are told anew in hindsight */
export const EDGE_S = 0.06;
/** pieces shorter than this are no reading, s */
const LEAST_PIECE_S = 0.5;

export function longestPiece(pieces: readonly ReadPiece[]): ReadPiece | null {
  const length = ({ startS, endS }: ReadPiece): number => endS - startS;
  const [first] = pieces.filter((one) => length(one) >= LEAST_PIECE_S).sort((a, b) => length(b) - length(a));
  return first ?? null;
}

/** The longest piece that lies in a band and was heard as what it is. */
export function pieceIn(band: Band, read: readonly ReadBand[]): ReadPiece | null {
  const pieces = read
    .filter((one) => soundsAlike(one.band, band))
    .flatMap((one) => one.pieces)
    .filter(({ startS, endS }) => startS >= band.startS - EDGE_S && endS <= band.endS + EDGE_S);
  return longestPiece(pieces);
}
