/** A side's document with the platter's own once-per-turn part from a second recording, the record turned by half a turn. */
import { ASSUMED } from '../advise/budget/defaults.ts';
import type { SideDocument } from '../advise/document.ts';
import { judge } from '../advise/limits.ts';
import { withheld } from '../capture/problem.ts';
import { halfTurn } from '../measure/halfTurn.ts';
import type { ExaminedSide } from './examineSide.ts';

const QUANTITY = 'once-per-turn-platter';

/** The figure by half a turn takes the place of the one by two radii. */
export function withHalfTurn(side: ExaminedSide, other: ExaminedSide): SideDocument {
  const { document } = side;
  const half = halfTurn(side.turns, other.turns, ASSUMED);
  if (!half.found) {
    return { ...document, problems: [...document.problems, withheld(QUANTITY, half.why)] };
  }
  const findings = document.findings.filter(({ quantity }) => quantity !== QUANTITY);
  return { ...document, findings: [...findings, judge(half.finding)] };
}
