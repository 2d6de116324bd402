/**
 * The channels' lines of a two-tone band turned into motions along and across the band's axis: gains, phase and leaks undone.
 *
 * A band that drives both walls alike shows the channels' ratio at either tone, ρ = (L/R)(1 ± c_LR)/(1 ± c_RL), + lateral,
 * − vertical (crosstalk.ts); with it and the leaks the walls are
 *
 *   L = (L′ − c_RL ρR′) / (1 − c_LR c_RL),   R = (ρR′ − c_LR L′) / (1 − c_LR c_RL)
 *
 * A skewed edge reads one wall after the other, and so the channels' phase goes with frequency: at the side lines it is the upper tone's, carried on by the slope
 * between the two tones. Taken as the upper tone's, the tracing of the two walls would leave 2 ρ τ ω₁ω₂/lean of k: 0.05° for a tip of 17 µm that is skewed by 3°.
 *
 * That the walls are cut alike is taken for granted here: what is not so is the record's, and in the uncertainty.
 */
import { type Complex, ONE, over, times } from '../units/complex.ts';
import type { ComplexLeaks } from './tilt.ts';
import type { ChannelLines, HeardLine, TwoToneReading } from './twoToneEstimator.ts';

interface Lines {
  readonly lower: Complex;
  readonly upper: Complex;
  readonly plus: Complex;
  readonly minus: Complex;
}

export interface AxisLines {
  readonly along: Lines;
  readonly across: Lines;
  /** of either part of a side line, along or across, as captured */
  readonly variance: number;
}

const plusTimes = (p: Complex, factor: number, q: Complex): Complex => ({
  re: p.re + factor * q.re,
  im: p.im + factor * q.im,
});
const phasor = (rad: number): Complex => ({ re: Math.cos(rad), im: Math.sin(rad) });
const NONE: ComplexLeaks = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };

/**
 * @param vertical the band is cut vertically
 * @param leaks gains removed, as heard (the tilt is in them); null where they are not known
 * @returns null where a line is missing or a channel is dead
 */
export function twoToneAxes(
  { left, right, frequenciesHz: [f1, f2] }: Extract<TwoToneReading, { found: true }>,
  vertical: boolean,
  leaks: ComplexLeaks | null,
): AxisLines | null {
  const { leftIntoRight: intoRight, rightIntoLeft: intoLeft } = leaks ?? NONE;
  const sign = vertical ? -1 : 1;
  const size = (line: Complex): number => Math.hypot(line.re, line.im);
  if (![left.lower, left.upper, right.lower, right.upper].every((line) => size(line) > 0)) return null;
  const turn = over(plusTimes(ONE, sign, intoRight), plusTimes(ONE, sign, intoLeft));
  const ratioAt = (tone: 'lower' | 'upper'): Complex =>
    times(over(left[tone], right[tone]), { re: sign * turn.re, im: sign * turn.im });
  const atLower = ratioAt('lower');
  const atUpper = ratioAt('upper');
  const apart = over(atUpper, atLower);
  const radPerHz = Math.atan2(apart.im, apart.re) / (f2 - f1);
  const determinant = plusTimes(ONE, -1, times(intoRight, intoLeft));
  const motion = (l: Complex, r: Complex, ratio: Complex): { along: Complex; across: Complex } => {
    const evened = times(r, ratio);
    const wallL = over(plusTimes(l, -1, times(intoLeft, evened)), determinant);
    const wallR = over(plusTimes(evened, -1, times(intoRight, l)), determinant);
    const mean = (turned: number): Complex => {
      const both = plusTimes(wallL, turned, wallR);
      return { re: both.re / 2, im: both.im / 2 };
    };
    return { along: mean(sign), across: mean(-sign) };
  };
  const pairOf = (name: keyof ChannelLines): readonly [HeardLine, HeardLine] | null => {
    const [l, r] = [left[name], right[name]];
    return l === null || r === null ? null : [l, r];
  };
  const plus = pairOf('plus');
  const minus = pairOf('minus');
  if (plus === null || minus === null) return null;
  const lower = motion(left.lower, right.lower, atLower);
  const upper = motion(left.upper, right.upper, atUpper);
  const above = motion(...plus, times(atUpper, phasor(radPerHz * f1)));
  const below = motion(...minus, times(atUpper, phasor(-radPerHz * f1)));
  const gain2 = size(atUpper) ** 2;
  const variance = (plus[0].variance + minus[0].variance + gain2 * (plus[1].variance + minus[1].variance)) / 8;
  const of = (axis: 'along' | 'across'): Lines => ({
    lower: lower[axis],
    upper: upper[axis],
    plus: above[axis],
    minus: below[axis],
  });
  return { along: of('along'), across: of('across'), variance };
}
