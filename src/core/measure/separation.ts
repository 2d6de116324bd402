/** Separation both ways, from the sizes of the leaks. */

import { type Problem, withheld } from '../capture/problem.ts';
import type { Complex } from '../units/complex.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { Uncertain } from './crosstalk.ts';
import type { CrosstalkPair } from './crosstalkPair.ts';
import type { Finding } from './finding.ts';
import { bandsOf, DB_PER_NEPER } from './toneLevels.ts';

/** dB; nothing that a groove holds lies further down */
const MOST_DB = 120;

export function separationFigures({ left, right, both, crosstalk, notes }: CrosstalkPair): {
  findings: Finding[];
  problems: Problem[];
} {
  const { asHeard } = crosstalk;
  const ways = [
    separationOf(crosstalk.leftIntoRight, {
      quantity: 'separation-left-to-right',
      bands: bandsOf([...left, ...both]),
      complex: asHeard.leftIntoRight,
    }),
    separationOf(crosstalk.rightIntoLeft, {
      quantity: 'separation-right-to-left',
      bands: bandsOf([...right, ...both]),
      complex: asHeard.rightIntoLeft,
    }),
  ];
  return {
    findings: ways.flatMap((way) => ('why' in way ? [] : [{ ...way, notes }])),
    problems: ways.flatMap((way) => ('why' in way ? [withheld(way.quantity, way.why)] : [])),
  };
}

/** −20 lg |c| */
function separationOf(
  leak: Uncertain,
  of: { readonly quantity: string; readonly bands: number[]; readonly complex: Complex },
): Omit<Finding, 'notes'> | { readonly quantity: string; readonly why: Statement } {
  const noise = leak.k * leak.spread;
  if (!(leak.value > 1.5 * noise)) {
    const atLeast = Math.min(MOST_DB, -DB_PER_NEPER * Math.log(Math.max(1e-9, leak.value + noise)));
    return { ...of, why: statement('leak-in-noise-at-least', { atLeastDb: atLeast }) };
  }
  // noise adds to a leak's size on average what its square says
  const size = Math.sqrt(Math.max(leak.value ** 2 - leak.spread ** 2, (leak.value / 2) ** 2));
  if (!(noise < 0.9 * size)) return { ...of, why: statement('leak-in-noise') };
  return {
    ...of,
    value: -DB_PER_NEPER * Math.log(size),
    unit: 'dB',
    // the larger side of the interval, where the two differ
    uncertainty: -DB_PER_NEPER * Math.log(1 - noise / size),
    repeatability: -DB_PER_NEPER * Math.log(1 - (leak.k * leak.own) / size),
  };
}
