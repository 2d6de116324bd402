/**
 * The signed second harmonic of tones that drive both walls, parted by axis: q = H2/H1 of each channel against its own fundamental's phase,
 * playback equalisation undone.
 *
 *   lateral tone    (q_L + q_R)/2 = v tan ε/V + c_s v          (q_L − q_R)/2 = c_d v + i (R v ω/(2√2 V²) + …)
 *   vertical tone   (q_L + q_R)/2 = c_s v                      (q_L − q_R)/2 = −v (tan α_play − tan α_cut)/V + c_d v + i (…)
 *
 * c_s and c_d, half the sum and half the difference of what the generators bend with velocity, are the same in both: a vertical tone tells
 * what of a lateral one's is the generator's, and the other way round. Tracing and a bend with displacement stand in quadrature.
 *
 * @checked test/independent/plainTones.test.ts, against an exact path, a rolling ball and bent generators
 */

import { type Complex, less, magnitude, over, scaled, times } from '../units/complex.ts';
import { CHANNELS } from './channels.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { ComplexLeaks } from './tilt.ts';
import { grooveSpeed, undoing } from './twoTones.ts';
import { isLateral, isVertical, type Polarity } from './wiring.ts';

export interface SecondHarmonic {
  readonly tone: ToneBand;
  readonly vertical: boolean;
  /** half the sum and half the difference of both channels' q */
  readonly sum: Complex;
  readonly difference: Complex;
  /** standard, of any part: the noise, and what the chain's own phase between f and 2f may turn of the others into it */
  readonly spread: number;
  /** cm/s peak along the axis; rad/s; groove, cm/s */
  readonly velocity: number;
  readonly omega: number;
  readonly speed: number;
  readonly radiusMm: number;
}

const HIGHEST_HZ = 3000;
/** rad: what the chain may turn between f and 2f */
const CHAIN_PHASE = 0.02;

/**
 * Tones up to 3 kHz that drive both walls, with radius and velocity stated.
 * @param leaks as heard, gains removed, undone here; null: not known
 */
export function secondHarmonics(
  side: SideReadings,
  polarity: Polarity,
  leaks: ComplexLeaks | null,
  flat: boolean,
): SecondHarmonic[] {
  const undo = undoing(flat);
  return side.tones.flatMap((tone): SecondHarmonic[] => {
    const { cut, reading, meanHz } = tone;
    const vertical = isVertical(tone, polarity);
    if (!(isLateral(tone, polarity) || vertical) || meanHz > HIGHEST_HZ) return [];
    if (cut?.radiusMm === undefined || cut.peakVelocityCmS === undefined) return [];
    const [left, right] = CHANNELS.map((channel) =>
      reading.harmonics?.find((h) => h.channel === channel)?.orders.find((o) => o.order === 2),
    );
    if (left === undefined || right === undefined) return [];
    // H1 of q stands squared under H2: q/(H(2f)/(H(f)²/|H(f)|))
    const one = undo({ re: 1, im: 0 }, meanHz);
    const square = scaled(times(one, one), 1 / magnitude(one));
    const signed = (of: typeof left): Complex => over(undo(of.phasor, 2 * meanHz), square);
    // a reversed channel turns its own q over
    const sign = polarity.inverted ? -1 : 1;
    const heard = signed(right);
    const { l, r } = withoutLeaks(signed(left), { re: sign * heard.re, im: sign * heard.im }, leaks, vertical);
    const gain = magnitude(undo({ re: 1, im: 0 }, 2 * meanHz)) / magnitude(square);
    const sum = { re: (l.re + r.re) / 2, im: (l.im + r.im) / 2 };
    const difference = { re: (l.re - r.re) / 2, im: (l.im - r.im) / 2 };
    const noise = Math.hypot((gain * Math.hypot(left.spread, right.spread)) / 2, 1e-5);
    return [
      {
        tone,
        vertical,
        sum,
        difference,
        spread: Math.hypot(
          noise,
          CHAIN_PHASE * (Math.hypot(sum.re, sum.im) + Math.hypot(difference.re, difference.im)),
        ),
        velocity: cut.peakVelocityCmS * 10 ** ((cut.levelCorrectionDb ?? 0) / 20),
        omega: 2 * Math.PI * meanHz,
        speed: grooveSpeed(side.rpm, cut.radiusMm),
        radiusMm: cut.radiusMm,
      },
    ];
  });
}

/**
 * q of both walls from q of both channels. With h_L = 1 ± c_RL, h_R = ±1 + c_LR the fundamentals (+ lateral, − vertical):
 *
 *   q_L′ h_L²/|h_L| = q_L + c_RL q_R,   q_R′ h_R²/|h_R| = q_R + c_LR q_L
 */
function withoutLeaks(
  l: Complex,
  r: Complex,
  leaks: ComplexLeaks | null,
  vertical: boolean,
): { l: Complex; r: Complex } {
  if (leaks === null) return { l, r };
  const { leftIntoRight: intoRight, rightIntoLeft: intoLeft } = leaks;
  const s = vertical ? -1 : 1;
  const put = (q: Complex, one: Complex): Complex => times(q, scaled(times(one, one), 1 / magnitude(one)));
  const ofL = put(l, { re: 1 + s * intoLeft.re, im: s * intoLeft.im });
  const ofR = put(r, { re: s + intoRight.re, im: intoRight.im });
  const both = times(intoLeft, intoRight);
  const determinant = { re: 1 - both.re, im: -both.im };
  return {
    l: over(less(ofL, times(intoLeft, ofR)), determinant),
    r: over(less(ofR, times(intoRight, ofL)), determinant),
  };
}
