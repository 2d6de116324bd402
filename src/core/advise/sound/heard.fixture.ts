/** Two-tone bands and tones as a side's readings hold them, as far as the angles rest on them. */
import type { SecondHarmonic } from '../../measure/secondHarmonic.ts';
import type { SolvedTwoTone } from '../../measure/twoTones.ts';

/** cm/s at 33⅓ a minute */
export const speedAt = (radiusMm: number): number => (2 * Math.PI * (100 / 3 / 60) * radiusMm) / 10;

interface Told {
  readonly band?: number;
  readonly vertical?: boolean;
  readonly radiusMm?: number;
  readonly k?: number;
  readonly kVariance?: number;
  readonly kPerRadian?: number;
  readonly leaksKnown?: boolean;
}

/** A band that tells `k`, s/cm: the tangent over the groove's speed. */
export const twoTone = ({ band = 0, vertical = false, radiusMm = 100, leaksKnown = true, ...solution }: Told) =>
  ({
    band: { index: band },
    vertical,
    radiusMm,
    speed: speedAt(radiusMm),
    leaksKnown,
    solution: { k: 0, kVariance: 0, kPerRadian: 0, ...solution },
  }) as unknown as SolvedTwoTone;

/** A tone whose second harmonic, over its velocity, is that of a tangent and of its generator's bend. */
export const tone = (of: {
  readonly band: number;
  readonly radiusMm: number;
  readonly vertical?: boolean;
  readonly tangent: number;
  /** s/cm */
  readonly bend?: number;
  readonly velocity?: number;
  readonly spread?: number;
}): SecondHarmonic => {
  const { vertical = false, velocity = 5, bend = 0, radiusMm, spread = 1e-5 } = of;
  const speed = speedAt(radiusMm);
  const part = { re: velocity * (of.tangent / speed + bend), im: 0.3 };
  return {
    tone: { band: { index: of.band } },
    vertical,
    // the other half is none of this axis's
    sum: vertical ? { re: bend * velocity, im: 0.1 } : part,
    difference: vertical ? part : { re: bend * velocity, im: 0.1 },
    spread,
    velocity,
    omega: 1,
    speed,
    radiusMm,
  } as unknown as SecondHarmonic;
};
