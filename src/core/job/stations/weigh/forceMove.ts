/** A force that was set, as a move: what it was before, what it was to be, and what the gauge then showed. */
import type { MoveFigure, MoveRecord } from '../../moveRecord.ts';
import type { ForceSet } from './weighData.ts';

const force = (value: number, uncertainty: number | null): MoveFigure => ({
  quantity: 'tracking-force',
  value,
  unit: 'mN',
  uncertainty,
});

/** @param before the force as it was left before; undefined where nobody knows it */
export function forceMove(set: ForceSet, before: ForceSet | undefined): MoveRecord {
  const change = before === undefined ? null : set.mn - before.mn;
  return {
    at: set.at,
    station: 'weigh',
    move: 'set-force',
    amount: change === null ? null : Math.abs(change),
    unit: 'mN',
    direction: change === null ? null : change >= 0 ? 'more' : 'less',
    before: before === undefined ? [] : [force(before.mn, before.uncertaintyMn)],
    foretold: [force(set.targetMn, null)],
    came: set.by === 'gauge' ? { at: set.at, figures: [force(set.mn, set.uncertaintyMn)] } : null,
  };
}
