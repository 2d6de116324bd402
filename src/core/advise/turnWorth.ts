/**
 * What a turn is worth: the tilt of least leak as heard is not the cartridge's own, and turning by all of it may make the worse
 * separation worse. So the turn is chosen under the posterior of the deck's own leaks:
 *
 *   c = x + d + n     x_LR = z_LR − t   x_RL = z_RL + t
 *
 * z the cartridge's own leaks (complex normal, independent), t the tilt of its body, d what the record hides, n the noise:
 * all normal, so the posterior of the four real parts is a closed form. Draws of it are turned back by 0.3 … 1.1 times the
 * posterior mean, and the turn with the best mean gain of the worse separation is taken of those that lose more than 0.5 dB in at
 * most two draws of a hundred, and in at most four where the record is 3 dB worse than it is taken for.
 *
 * @checked turnWorth.test.ts, test/loops/turnBenefit.test.ts
 */

import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks } from '../measure/tilt.ts';
import type { Complex } from '../units/complex.ts';
import { normalDraws } from './budget/normalDraws.ts';
import type { Verdict } from './document.ts';

/** Variances of what stands between the leaks heard and the deck's own, each of one real part. */
export interface LeakDoubt {
  /** of t = (Re c_RL − Re c_LR)/2: the record's tilt */
  readonly tilt: number;
  /** of (Re c_RL + Re c_LR)/2 */
  readonly common: number;
  /** of either imaginary part */
  readonly quadrature: number;
  /** of the signal's noise: re and im of each leak */
  readonly noise: { readonly leftIntoRight: Complex; readonly rightIntoLeft: Complex };
}

/** What cartridges and bodies are like before anything is heard. */
export interface TurnPrior {
  /** dB, rms size of the cartridge's own leak in either direction, negative */
  readonly ownLeakDb: number;
  /** rad, standard: how far the body stands from upright */
  readonly bodyTilt: number;
}

/** House guesses: good cartridges separate by 25 to 35 dB; a body set by eye is within 1.4°, by mirror within 1°, k = 2. */
export const SET_BY_EYE: TurnPrior = { ownLeakDb: -30, bodyTilt: (0.7 * Math.PI) / 180 };
const SET_BY_MIRROR: TurnPrior = { ownLeakDb: -30, bodyTilt: (0.5 * Math.PI) / 180 };

export const usualBody = (setByMirror: boolean): TurnPrior => (setByMirror ? SET_BY_MIRROR : SET_BY_EYE);

export type TurnAction = 'tilt' | 'trial-tilt' | 'leave-tilt';

export interface TurnWorth {
  readonly action: TurnAction;
  /** rad, tilt to be taken out, clockwise positive; 0 where none is worth it */
  readonly turn: number;
  /** dB, mean gain of the worse separation */
  readonly expectedGainDb: number;
  /** share of the draws in which the worse separation loses more than 0.5 dB */
  readonly harmProbability: number;
  /** dB, mean gain that somebody who knew the deck's own leaks could reach: what a better record could still bring */
  readonly gainIfKnownDb: number;
  /** rad, posterior mean of the tilt of least leak, and its standard deviation */
  readonly tilt: number;
  readonly tiltSpread: number;
}

const DRAWS = 160;
const SHARES = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1];
/** dB; losing this much of the worse separation is harm */
const HARM_DB = 0.5;
/**
 * Of the draws. At 5 % a deck, 5 % would be harmed only where every prior holds; 2 % leaves room for cartridges and bodies that are not as
 * assumed (test/loops/turnBenefit.test.ts prints what it leaves).
 */
const MOST_HARM = 0.02;
/** A record that is worse than assumed shows in nothing: so a turn must hold, this well, on one of twice the variance (3 dB) too. */
const WORSE_RECORD = 2;
const MOST_HARM_IF_WORSE = 0.04;
/** dB; a mean gain that is worth a turn, and one that is worth a trial */
const WORTH_TURNING_DB = 1.75;
export const WORTH_TRYING_DB = 1;

type Pair = readonly [number, number];

/** Posterior of two real parts: prior covariance P, noise covariance N (both [p11, p12, p22]), heard y. */
function posterior(p: readonly number[], n: readonly number[], y: Pair) {
  const [s11, s12, s22] = p.map((v, i) => v + n[i]);
  const det = s11 * s22 - s12 * s12;
  // K = P S⁻¹
  const k11 = (p[0] * s22 - p[1] * s12) / det;
  const k12 = (p[1] * s11 - p[0] * s12) / det;
  const k21 = (p[1] * s22 - p[2] * s12) / det;
  const k22 = (p[2] * s11 - p[1] * s12) / det;
  return {
    mean: [k11 * y[0] + k12 * y[1], k21 * y[0] + k22 * y[1]] as Pair,
    cov: [p[0] - k11 * p[0] - k12 * p[1], p[1] - k11 * p[1] - k12 * p[2], p[2] - k21 * p[1] - k22 * p[2]],
  };
}

function rooted([c11, c12, c22]: readonly number[]): readonly [number, number, number] {
  const a = Math.sqrt(Math.max(c11, 0));
  const b = a > 0 ? c12 / a : 0;
  return [a, b, Math.sqrt(Math.max(c22 - b * b, 0))];
}

const worse = ({ leftIntoRight: a, rightIntoLeft: b }: ComplexLeaks): number =>
  Math.max(Math.hypot(a.re, a.im), Math.hypot(b.re, b.im), 1e-6);
const lossDb = (before: ComplexLeaks, after: ComplexLeaks): number => 20 * Math.log10(worse(after) / worse(before));

/** Gain of the worse separation by the best turn of all for known leaks, dB: the larger leak falls until the two are equal or its own in-phase part is gone. */
function bestGainDb(leaks: ComplexLeaks): number {
  const least = tiltFromLeaks(leaks);
  let best = 0;
  // the best lies between no turn and what takes the louder leak's in-phase part away: looked for on a grid fine enough for the question
  const span = Math.max(Math.abs(leaks.leftIntoRight.re), Math.abs(leaks.rightIntoLeft.re), Math.abs(least));
  for (let i = -8; i <= 8; i++) {
    best = Math.max(best, -lossDb(leaks, predictAfterTurn(leaks, Math.atan((i / 8) * span))));
  }
  return best;
}

interface Believed {
  /** draws of the deck's own leaks */
  readonly draws: readonly ComplexLeaks[];
  /** rad, posterior mean of the tilt of least leak, and its standard deviation */
  readonly tilt: number;
  readonly tiltSpread: number;
}

/** The deck's own leaks after what was heard. */
function believed(heard: ComplexLeaks, doubt: LeakDoubt, prior: TurnPrior): Believed {
  const own = 10 ** (prior.ownLeakDb / 10) / 2;
  const body = Math.tan(prior.bodyTilt) ** 2;
  const { tilt, common, quadrature, noise } = doubt;
  const real = posterior(
    [own + body, -body, own + body],
    [common + tilt + noise.leftIntoRight.re, common - tilt, common + tilt + noise.rightIntoLeft.re],
    [heard.leftIntoRight.re, heard.rightIntoLeft.re],
  );
  const imaginary = posterior(
    [own, 0, own],
    [quadrature + noise.leftIntoRight.im, 0, quadrature + noise.rightIntoLeft.im],
    [heard.leftIntoRight.im, heard.rightIntoLeft.im],
  );
  const re = rooted(real.cov);
  const im = rooted(imaginary.cov);
  const draws = normalDraws(DRAWS).map(
    ([a, b, c, d]): ComplexLeaks => ({
      leftIntoRight: { re: real.mean[0] + re[0] * a, im: imaginary.mean[0] + im[0] * c },
      rightIntoLeft: {
        re: real.mean[1] + re[1] * a + re[2] * b,
        im: imaginary.mean[1] + im[1] * c + im[2] * d,
      },
    }),
  );
  return {
    draws,
    tilt: Math.atan((real.mean[1] - real.mean[0]) / 2),
    tiltSpread: Math.sqrt(Math.max(0, real.cov[0] - 2 * real.cov[1] + real.cov[2])) / 2,
  };
}

function outcome(draws: readonly ComplexLeaks[], turn: number): { readonly gain: number; readonly harm: number } {
  const losses = draws.map((leaks) => lossDb(leaks, predictAfterTurn(leaks, turn)));
  return {
    gain: -losses.reduce((sum, db) => sum + db, 0) / losses.length,
    harm: losses.filter((db) => db > HARM_DB).length / losses.length,
  };
}

const worseRecord = (doubt: LeakDoubt): LeakDoubt => ({
  ...doubt,
  tilt: WORSE_RECORD * doubt.tilt,
  common: WORSE_RECORD * doubt.common,
  quadrature: WORSE_RECORD * doubt.quadrature,
});

/**
 * @param heard leaks as heard, gains removed, what is known of the record's own taken off
 * @returns what to do, with what it is expected to bring
 */
export function turnWorth(heard: ComplexLeaks, doubt: LeakDoubt, prior: TurnPrior = SET_BY_EYE): TurnWorth {
  const { draws, tilt, tiltSpread } = believed(heard, doubt, prior);
  const ifWorse = believed(heard, worseRecord(doubt), prior);
  const tried = SHARES.map((share) => {
    const turn = share * tilt;
    return { turn, ...outcome(draws, turn) };
  });
  const best = (of: typeof tried) => of.reduce((a, b) => (b.gain > a.gain ? b : a));
  const safe = tried.filter(
    ({ turn, gain, harm }) =>
      gain >= WORTH_TURNING_DB && harm <= MOST_HARM && outcome(ifWorse.draws, turn).harm <= MOST_HARM_IF_WORSE,
  );
  const known = {
    gainIfKnownDb: draws.reduce((sum, leaks) => sum + bestGainDb(leaks), 0) / DRAWS,
    tilt,
    tiltSpread,
  };
  const answer = (action: TurnAction, { turn, gain, harm }: (typeof tried)[number]): TurnWorth => ({
    action,
    turn: action === 'leave-tilt' ? 0 : turn,
    expectedGainDb: gain,
    harmProbability: harm,
    ...known,
  });
  if (safe.length > 0) return answer('tilt', best(safe));
  const boldest = best(tried);
  if (boldest.gain >= WORTH_TRYING_DB) return answer('trial-tilt', boldest);
  return answer('leave-tilt', boldest);
}

/** Tilt has no limit in degrees: its verdict is what a turn is worth, and what a better known record might still find. */
export function verdictOfWorth({ action, gainIfKnownDb }: TurnWorth): Verdict {
  if (action === 'tilt') return 'adjust';
  return action === 'leave-tilt' && gainIfKnownDb < WORTH_TRYING_DB ? 'good' : 'undecided';
}
