/**
 * From the lines of a two-tone band to what bends the groove's picture: k of the tip's path, the generator's bends a and b, the
 * tip's radius. With Σ = ω2 + ω1, Δ = ω2 − ω1, p = ω1 ω2 and velocities along the band's axis
 *
 *   P₊ = S₊/(v1 v2)  = + (k/2) Σ²/p + b − i a Σ/p (+ i ρ Σ)
 *   P₋ = S₋/(v2 v1*) = − (k/2) Δ²/p + b + i a Δ/p (+ i ρ Δ)        ρ = R / (2√2 V²)
 *
 * Only |v1| must be known in cm/s: v2 and both phases are the capture's own. On a lateral band the tip's radius lifts the tip, so ρ
 * stands across the band's axis and the axis itself has one equation to spare; on a vertical band it stands along the axis.
 *
 * The lower tone swings the upper one's phase by β = k v1 ω2/ω1, and strictly S/A2 = J₁(β)/J₀(β), not β/2: 4 % at β = 0.6, which
 * 60 Hz under 7 kHz reaches. The part of k is put right for it.
 *
 * @source derived here; k and ρ as "real" and "imaginary" frequency modulation: abstract of "Measurement of FM Distortion in
 *   Phonographs" (J. AES)
 * @checked test/independent/twoTone.test.ts, against captures made without these formulas
 */
import { type Complex, magnitude, over, times } from '../units/complex.ts';
import type { AxisLines } from './twoToneAxes.ts';

export interface TwoToneSolution {
  /** s/cm, and its variance: tan ε / V of a lateral band, −(tan α_play − tan α_cut)/V of a vertical one */
  readonly k: number;
  readonly kVariance: number;
  /** s/cm and 1/cm: the generator's bends along the axis */
  readonly b: number;
  readonly a: number;
  /** R/(2√2 V²), s²/cm², and its variance */
  readonly rho: number;
  readonly rhoVariance: number;
  /** what the spare equation leaves of a lateral band, as an error of k, s/cm; null on a vertical one */
  readonly spare: number | null;
  /** by how much k changes for 1 rad that the lower tone's phase is off, s/cm */
  readonly kPerRadian: number;
}

/** Multiplies by 1/H, so that a line stands for the groove's velocity. */
export type Undo = (line: Complex, hz: number) => Complex;

/**
 * @param v1 cm/s, peak of the lower tone along the band's axis
 * @param traced where the tip's radius stands: `across` of a lateral band, `along` a vertical one
 * @returns null where a tone is dead
 */
export function solveTwoTone(
  lines: AxisLines,
  [f1, f2]: readonly [number, number],
  v1: number,
  traced: 'along' | 'across',
  undo: Undo,
): TwoToneSolution | null {
  const { along, across } = lines;
  const lower = undo(along.lower, f1);
  const upper = undo(along.upper, f2);
  if (!(magnitude(lower) > 0 && magnitude(upper) > 0 && v1 > 0)) return null;
  const unit = over(lower, { re: magnitude(lower), im: 0 });
  const scale = times(upper, { re: v1, im: 0 });
  const ratios = (of: { plus: Complex; minus: Complex }): { plus: Complex; minus: Complex } => ({
    plus: over(over(undo(of.plus, f2 + f1), scale), unit),
    minus: times(over(undo(of.minus, f2 - f1), scale), unit),
  });
  const own = ratios(along);
  const w1 = 2 * Math.PI * f1;
  const w2 = 2 * Math.PI * f2;
  const sum = w2 + w1;
  const difference = w2 - w1;
  const p = w1 * w2;
  const lean = (sum * sum + difference * difference) / (2 * p);
  const slope = (own.plus.re - own.minus.re) / lean;
  const spare = ({ plus, minus }: typeof own): number => (plus.im / sum + minus.im / difference) / 2;
  const gain = magnitude(undo({ re: 1, im: 0 }, f2)) / magnitude(scale);
  const variance = lines.variance * gain * gain;
  return {
    k: slope * straightened((slope * v1 * w2) / w1),
    kVariance: (2 * variance) / lean ** 2,
    b: own.plus.re - (slope * sum * sum) / (2 * p),
    a: ((own.minus.im / difference - own.plus.im / sum) / 2) * p,
    rho: spare(traced === 'along' ? own : ratios(across)),
    rhoVariance: (variance / 4) * (1 / sum ** 2 + 1 / difference ** 2),
    spare: traced === 'along' ? null : (spare(own) * (sum + difference)) / lean,
    // all lines turned by e^(iφ) but not its own tone's: P₊ is off by e^(−iφ), P₋ by e^(iφ)
    kPerRadian: (own.plus.im + own.minus.im) / lean,
  };
}

/** β over x, where x = 2 J₁(β)/J₀(β) = β + β³/8 + β⁵/48 + 11 β⁷/3072 + … (to β = 1 within 0.1 %). */
function straightened(x: number): number {
  let beta = x;
  for (let round = 0; round < 20; round++) {
    const b2 = beta * beta;
    beta = x / (1 + b2 * (1 / 8 + b2 * (1 / 48 + (b2 * 11) / 3072)));
  }
  return x === 0 ? 1 : beta / x;
}
