/**
 * Leaks, separation and azimuth at 1 kHz, in the definitions of docs/contract.md, from the periodic solution.
 *
 *   g = |L on left| / |R on right|     c_LR = g·(R/L on left)     c_RL = (L/R on right)/g
 *   azimuth: least total leak of |c_LR + t|² + |c_RL − t|², t = (Re c_RL − Re c_LR)/2, φ = atan t
 */
import { type Complex, magnitude, over, phaseOf, scaled } from '../units/complex.ts';
import type { Both } from './chain.ts';
import { type Deck, readDeck } from './deck.ts';
import type { Sheet, SheetBand } from './sheet.ts';
import { steadyTone } from './steadyTone.ts';

export interface LeakTruth extends Complex {
  readonly phaseDeg: number;
}

export interface CrosstalkTruth {
  readonly leftIntoRight: LeakTruth;
  readonly rightIntoLeft: LeakTruth;
  readonly separationLeftToRightDb: number;
  readonly separationRightToLeftDb: number;
  readonly azimuthErrorDeg: number;
  /** null where no tilt makes the separations equal */
  readonly equalSeparationTiltDeg: number | null;
}

const faultlessCut = readDeck({}).record.cut;

/** Separations are given up to this; there is no infinity in a document. */
const MOST_DB = 200;

/**
 * Two one-sided tones of 1 kHz at the reference velocity, played without noise.
 * @param asWired true: leads, the preamp's delay and the record's own tilt, leaks and balance as they are; false: all that put right
 */
export function crosstalkTruth(deck: Deck, sheet: Sheet, radiusMm: number, asWired: boolean): CrosstalkTruth {
  const heard: Deck = asWired
    ? deck
    : {
        ...deck,
        leads: { swapped: false, leftInverted: false, rightInverted: false },
        preamp: { ...deck.preamp, rightDelayUs: 0 },
        record: { ...deck.record, cut: faultlessCut },
      };
  const record: Sheet = asWired || sheet.cut === null ? sheet : { ...sheet, cut: { ...sheet.cut, tiltDeg: 0 } };
  const wall = (motion: 'left' | 'right'): Both => {
    const band: SheetBand = {
      ...sheet.bands[0],
      signal: 'tone',
      motion,
      frequencyHz: 1000,
      peakVelocityCmS: sheet.referenceVelocityCmS,
      levelCorrectionDb: null,
    };
    return steadyTone(heard, record, band, radiusMm, 1).line(1, 0);
  };
  // With the leads swapped the channel that answers to the left wall is the right one: heard as it comes.
  const swapped = asWired && deck.leads.swapped;
  const leftOnly = wall(swapped ? 'right' : 'left');
  const rightOnly = wall(swapped ? 'left' : 'right');
  const g = magnitude(leftOnly.left) / magnitude(rightOnly.right);
  const lr = scaled(over(leftOnly.right, leftOnly.left), g);
  const rl = scaled(over(rightOnly.left, rightOnly.right), 1 / g);
  const common = 2 * (lr.re + rl.re);
  const equal = common === 0 ? null : (magnitude(rl) ** 2 - magnitude(lr) ** 2) / common;
  const deg = (t: number) => (Math.atan(t) * 180) / Math.PI;
  return {
    leftIntoRight: leakTruth(lr),
    rightIntoLeft: leakTruth(rl),
    separationLeftToRightDb: separation(lr),
    separationRightToLeftDb: separation(rl),
    azimuthErrorDeg: deg((rl.re - lr.re) / 2),
    equalSeparationTiltDeg: equal !== null && Math.abs(equal) < 1 ? deg(equal) : null,
  };
}

const separation = (c: Complex): number => Math.min(MOST_DB, -20 * Math.log10(Math.max(magnitude(c), 1e-300)));
const leakTruth = (c: Complex): LeakTruth => ({ re: c.re, im: c.im, phaseDeg: (phaseOf(c) * 180) / Math.PI });
