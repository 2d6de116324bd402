/** A height that was set, as a move: what was measured before it, and what that is to be by the arm's own geometry. */
import type { HeightArm } from '../../../advise/height.ts';
import { heightSheet } from '../../../advise/height.ts';
import type { CaptureEntry } from '../../api.ts';
import { cameFrom, type MoveFigure, type MoveRecord } from '../../moveRecord.ts';
import type { HeightSet } from './heightData.ts';

/** What a raised pivot turns, and by how much for each degree of pitch. */
const turned = ['vertical-tracking-error', 'azimuth-error'] as const;

/**
 * @param before the height as it was left before; undefined where nobody knows it: then nothing can be foretold
 * @param arm null where its length is not known
 * @param captures that count of what is fitted, oldest first; what was heard since the height was last set counts as before
 */
export function heightMove(
  set: HeightSet,
  before: HeightSet | undefined,
  arm: HeightArm | null,
  captures: readonly CaptureEntry[],
): MoveRecord {
  const change = before === undefined ? null : set.riseMm - before.riseMm;
  const was = cameFrom({ at: before?.at ?? '', foretold: turned.map((quantity) => ({ quantity })) }, captures) ?? [];
  return {
    at: set.at,
    station: 'height',
    move: 'set-arm-height',
    amount: change === null ? null : Math.abs(change),
    unit: 'mm',
    direction: change === null ? null : change >= 0 ? 'up' : 'down',
    before: was,
    foretold: change === null || arm === null ? [] : was.map((figure) => after(figure, change, arm)),
    came: null,
  };
}

/** Pitch for the vertical angle, tilt for the azimuth; half of what two kinds of bearing differ by is left open. */
function after(figure: MoveFigure, riseMm: number, arm: HeightArm): MoveFigure {
  const { bearings } = heightSheet({ ...arm, setOnThicknessMm: 2, otherThicknessMm: [] });
  const turns = bearings.map(
    ({ mmPerDeg, tiltPerDeg }) => (riseMm / mmPerDeg) * (figure.quantity === 'azimuth-error' ? tiltPerDeg : 1),
  );
  const [least, most] = [Math.min(...turns), Math.max(...turns)];
  return {
    ...figure,
    value: figure.value + (least + most) / 2,
    uncertainty: figure.uncertainty === null ? null : Math.hypot(figure.uncertainty, (most - least) / 2),
  };
}
