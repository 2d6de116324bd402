/**
 * A sweep that was lost for a moment, as where it passes a hum line stronger than itself, joined again: a moving piece
 * goes on where another stopped, in the same direction, within half a second, 12 % and 12 dB of what was expected.
 */

import { median } from '../signal/robust.ts';
import { power } from './toneTracks.ts';
import type { Piece } from './trackSegments.ts';

const MOST_GAP_HOPS = 12;
const MOST_OFF = 0.12;
const MOST_STEP_DB = 12;

export function joinSweeps(pieces: readonly Piece[]): Piece[] {
  const moving = pieces.filter((piece) => piece.kind === 'moving').sort((a, b) => a.fromHop - b.fromHop);
  const joined: Piece[] = [];
  for (const piece of moving) {
    const i = joined.findIndex((earlier) => goesOn(earlier, piece));
    if (i < 0) joined.push(piece);
    else {
      const earlier = joined[i];
      joined[i] = {
        ...earlier,
        points: [...earlier.points, ...piece.points],
        track: [
          ...earlier.track.filter((p) => p.hop < piece.fromHop),
          ...piece.track.filter((p) => p.hop >= piece.fromHop),
        ],
        toHop: piece.toHop,
        endsAtStep: piece.endsAtStep,
      };
    }
  }
  return [...pieces.filter((piece) => piece.kind === 'steady'), ...joined];
}

function goesOn(a: Piece, b: Piece): boolean {
  const gap = b.fromHop - a.toHop;
  if (gap < -2 || gap > MOST_GAP_HOPS) return false;
  const before = slope(a, -10);
  const after = slope(b, 10);
  if (before * after <= 0) return false;
  const last = a.points[a.points.length - 1];
  const first = b.points[0];
  // From either side the meeting point is expected with the slope of that side; either may be bent by what hid it.
  const off = Math.log(first.frequencyHz / last.frequencyHz);
  const hops = first.hop - last.hop;
  if (Math.min(Math.abs(off - before * hops), Math.abs(off - after * hops)) > MOST_OFF) return false;
  const level = (piece: Piece, n: number): number =>
    10 * Math.log10(median((n < 0 ? piece.points.slice(n) : piece.points.slice(0, n)).map(power)));
  return Math.abs(level(a, -10) - level(b, 10)) < MOST_STEP_DB;
}

/** Change of ln f per hop over the last (n < 0) or first n points. */
function slope({ points }: Piece, n: number): number {
  const part = n < 0 ? points.slice(n) : points.slice(0, n);
  const first = part[0];
  const last = part[part.length - 1];
  return last.hop === first.hop ? 0 : Math.log(last.frequencyHz / first.frequencyHz) / (last.hop - first.hop);
}
