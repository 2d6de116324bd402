/**
 * The third reading: the mono sum of each one-sided band against its driven channel tells the in-phase part that a meter
 * cannot see.
 *
 *   10^(M/10) = G² |1 + c|² = G² (1 + 2 Re c + |c|²)
 *
 * The mono switch's own gain G is the same for both bands: the difference of the two sums,
 * D = ln(1 + 2b + |c_RL|²) − ln(1 + 2a + |c_LR|²) with a = Re c_LR, b = Re c_RL, is free of it, and t = (b − a)/2. The common part a + b enters by
 * its square only; it is read from the sums' mean where G is 1, and taken as nothing where that cannot be.
 *
 * ±0.1 dB of each sum leaves ±0.5°.
 *
 * @checked monoSums.test.ts
 */
import type { ComplexLeaks } from '../measure/tilt.ts';
import { type Statement, statement } from '../words/statement.ts';

export interface MonoSums {
  /** dB, the mono sum on the left-only band against the left channel there */
  readonly leftMonoDb: number;
  /** dB, on the right-only band against the right channel */
  readonly rightMonoDb: number;
}

/** k = 2, dB: a digital voltmeter at a steady tone; common practice. */
export const DEFAULT_MONO_UNCERTAINTY_DB = 0.1;

/** dB; what a mono switch and a leak can make of a driven channel's level: half a sum to a whole one */
const LEAST_DB = -12;
const MOST_DB = 6;

/** dB per neper */
const DB = 20 / Math.LN10;

function checkSum(name: string, db: number): void {
  if (!(LEAST_DB <= db && db <= MOST_DB)) {
    throw new RangeError(
      `${name} is ${db}; the mono sum against the driven channel, between ${LEAST_DB} and ${MOST_DB} dB, was expected`,
    );
  }
}

/**
 * @param leftIntoRight, rightIntoLeft sizes of the leaks
 * @param spread k = 2, dB, of each separation and of each sum
 * @returns leaks with their in-phase parts (the quadrature without its sign), the tilt of least leak, rad, and its k = 2; or why not
 * @throws RangeError naming the sum, its value and its bounds
 */
export function tiltFromMonoSums(
  leftIntoRight: number,
  rightIntoLeft: number,
  { leftMonoDb, rightMonoDb }: MonoSums,
  spread: { readonly separationDb: number; readonly monoDb: number },
):
  | { readonly found: true; readonly leaks: ComplexLeaks; readonly tilt: number; readonly uncertainty: number }
  | { readonly found: false; readonly why: Statement } {
  checkSum('left mono', leftMonoDb);
  checkSum('right mono', rightMonoDb);
  const [A, B] = [leftIntoRight ** 2, rightIntoLeft ** 2];
  const difference = (2 * (rightMonoDb - leftMonoDb)) / DB;
  // in-phase common part if the switch had unity gain: believed only where the leaks could hold it
  const inPhase = (db: number, square: number): number => (Math.exp((2 * db) / DB) - 1 - square) / 2;
  const mean = (inPhase(leftMonoDb, A) + inPhase(rightMonoDb, B)) / 2;
  const common = Math.abs(mean) <= (leftIntoRight + rightIntoLeft) / 2 ? mean : 0;
  let t = difference / 4;
  for (let round = 0; round < 20; round++) {
    const [a, b] = [common - t, common + t];
    const made = Math.log(1 + 2 * b + B) - Math.log(1 + 2 * a + A);
    t += (difference - made) / 4;
  }
  const ofSums = (Math.SQRT2 * spread.monoDb) / DB / 2;
  // |c|² stands in the sums too
  const ofSizes = (Math.hypot(A, B) * spread.separationDb) / DB / 2;
  const uncertainty = Math.hypot(ofSums, ofSizes);
  if (!(Math.abs(t) <= (leftIntoRight + rightIntoLeft) / 2 + uncertainty)) {
    return {
      found: false,
      why: statement('mono-sums-disagree'),
    };
  }
  const part = (re: number, square: number) => {
    const inside = Math.max(-Math.sqrt(square), Math.min(Math.sqrt(square), re));
    return { re: inside, im: Math.sqrt(Math.max(0, square - inside ** 2)) };
  };
  return {
    found: true,
    tilt: Math.atan(t),
    uncertainty,
    leaks: { leftIntoRight: part(common - t, A), rightIntoLeft: part(common + t, B) },
  };
}
