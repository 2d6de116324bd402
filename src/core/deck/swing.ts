/** What a disc that is not flat, or not centred, does to the arm. */
import { restOf } from './armPath.ts';
import { radiusAt } from './side.ts';
import { CHUNK, type Take } from './take.ts';

/** One slow motion: amplitude·sin(harmonic·angle + phase), cm/s at the exact speed. */
interface Motion {
  readonly velocity: number;
  readonly harmonic: number;
  readonly phase: number;
}

/**
 * Warp (vertical) and the off-centre hole's sideways swing, both once a turn or a multiple of it; with no arm resonance
 * given the arm follows them perfectly. The platter's angle is taken without the hole's own share (e/r of a radian). On a
 * pivoted arm the tip's bearing is −λ from the pivot's, and it slides along its arc by 1/cos θ (armPath.ts).
 */
export function discSwing(take: Take) {
  const { deck, speed } = take;
  const omega = speed.turning / speed.mean;
  // Displacements e·cos(Θ − ψ) outward and h·cos(kΘ + φ) upward; these are their velocities.
  const { arm, offCentre, offCentreAngle } = speed.path;
  const lateralAt = (radius: number): Motion[] => {
    if (deck.arm.lateralResonance === null || offCentre === 0) return [];
    const velocity = (-offCentre / 10) * omega;
    if (arm === null) return [{ velocity, harmonic: 1, phase: -offCentreAngle }];
    const { d, length } = arm;
    const sinTheta = (radius ** 2 + length ** 2 - d ** 2) / (2 * radius * length);
    const slide = velocity / Math.sqrt(1 - sinTheta ** 2);
    return [{ velocity: slide, harmonic: 1, phase: -offCentreAngle + restOf(arm, radius).bearing }];
  };
  const verticalAt = (radius: number): Motion[] =>
    deck.arm.verticalResonance === null
      ? []
      : deck.record.warp.map(({ harmonic, mm, phaseDeg }) => ({
          velocity: (-mm / 10) * harmonic * omega,
          harmonic,
          phase: (phaseDeg * Math.PI) / 180 + (arm === null ? 0 : harmonic * restOf(arm, radius).bearing),
        }));
  if (lateralAt(100).length + verticalAt(100).length === 0) return null;

  return (x: Float64Array, y: Float64Array, tau: Float64Array, rate: Float64Array, loud: Float64Array) => {
    const radius = radiusAt(take.side, tau[0]).mm;
    for (const [out, motions] of [
      [x, lateralAt(radius)],
      [y, verticalAt(radius)],
    ] as const) {
      for (const { velocity, harmonic, phase } of motions) {
        // Turned from sample to sample by a small angle d, cos d and sin d by their series (d < 0.01); renewed every chunk.
        const start = harmonic * (speed.startAngle + omega * tau[0]) + phase;
        let cos = Math.cos(start);
        let sin = Math.sin(start);
        for (let i = 0; i < CHUNK; i++) {
          if (loud[i] > 0) out[i] += velocity * rate[i] * sin;
          const d = i + 1 < CHUNK ? harmonic * omega * (tau[i + 1] - tau[i]) : 0;
          const dd = d * d;
          const c = 1 - dd / 2 + (dd * dd) / 24;
          const s = d * (1 - dd / 6 + (dd * dd) / 120);
          const turned = cos * c - sin * s;
          sin = sin * c + cos * s;
          cos = turned;
        }
      }
    }
  };
}
