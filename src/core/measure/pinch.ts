/**
 * Absolute polarity and the tip's radius from the pinch: a round tip is lifted off a sloping wall, always into the groove, so the
 * lift's sign is that of the chain. With q = H2/H1 against the fundamental's own phase, of (left − right)/2,
 *
 *   Im q = R v ω / (2√2 V²) + a v/ω        over tones of different groove speed or frequency, or
 *   ρ = R / (2√2 V²)                        from a two-tone band, where the generator's bend a is told apart by itself
 *
 * A chain that is turned over turns R over. A cut that was predistorted for tracing can cancel or turn it: that the capture cannot tell.
 */
import type { SecondHarmonic } from './secondHarmonic.ts';
import type { SolvedTwoTone } from './twoTones.ts';

/** A radius as one way reads it, µm; negative where the chain is turned over. */
export interface HeardRadius {
  readonly um: number;
  /** standard: from the signal alone, what another pass of the same record may differ by */
  readonly own: number;
  /** standard: with what the model leaves out */
  readonly spread: number;
  readonly way: 'two-tone' | 'tones';
  readonly bands: readonly number[];
}

/** One tone's reading for the fit. */
export interface PinchTone {
  /** Im q, and its standard uncertainty */
  readonly q: number;
  readonly spread: number;
  /** cm/s; rad/s; groove, cm/s */
  readonly velocity: number;
  readonly omega: number;
  readonly speed: number;
}

const UM = 1e4;
const ROOT8 = 2 * Math.SQRT2;
/** tones differ enough to part the tip from the generator */
const SPEED_RATIO = 1.5;
const FREQUENCY_RATIO = 3;
/** rad: what chain and leaks may turn the lower tone's phase by */
const PHASE = 0.03;
/** share of the radius that the model leaves out, standard: leaks that grow with frequency, undone as they are at 1 kHz, generators that bend, higher orders */
const MODEL_SHARE = 0.035;

/**
 * Of a two-tone band. The lift is R (√(1 + s²) − 1) with s the wall's slope: its s⁴ takes 3/8 (s₁² + s₂²) off what s² alone would give, s₁ and s₂ the peak
 * slopes of either tone along the wall.
 */
export function radiusOfTwoTone({ band, cut, speed, velocity, heard, solution }: SolvedTwoTone): HeardRadius {
  const upper = velocity / (cut?.ratio ?? 4);
  const steep = (3 / 16) * ((velocity ** 2 + upper ** 2) / speed ** 2);
  const scale = (ROOT8 * speed * speed * UM) / (1 - Math.min(0.2, steep));
  const turned = Math.abs(solution.k) / (2 * 2 * Math.PI * heard.frequenciesHz[0]);
  const own = Math.sqrt(solution.rhoVariance) * scale;
  const um = solution.rho * scale;
  return {
    um,
    own,
    spread: Math.hypot(own, PHASE * turned * scale, MODEL_SHARE * um),
    way: 'two-tone',
    bands: [band.index],
  };
}

/**
 * Weighted least squares of R and a over tones.
 * @returns null where groove speeds or frequencies differ too little to part the two
 */
export function radiusOfTones(tones: readonly PinchTone[]): Pick<HeardRadius, 'um' | 'own' | 'spread'> | null {
  const ratio = (of: (t: PinchTone) => number): number => Math.max(...tones.map(of)) / Math.min(...tones.map(of));
  if (tones.length < 2) return null;
  if (!(ratio((t) => t.speed) >= SPEED_RATIO || ratio((t) => t.omega) >= FREQUENCY_RATIO)) return null;
  let [saa, sab, sbb, ya, yb] = [0, 0, 0, 0, 0];
  for (const { q, spread, velocity, omega, speed } of tones) {
    const weight = 1 / (spread * spread);
    const a = (velocity * omega) / (ROOT8 * speed * speed);
    const b = velocity / omega;
    saa += weight * a * a;
    sab += weight * a * b;
    sbb += weight * b * b;
    ya += weight * a * q;
    yb += weight * b * q;
  }
  const determinant = saa * sbb - sab * sab;
  if (!(determinant > 1e-9 * saa * sbb)) return null;
  const radius = (ya * sbb - yb * sab) / determinant;
  const bend = (yb * saa - ya * sab) / determinant;
  // what the two leave over counts against both
  const left = tones.reduce((sum, { q, spread, velocity, omega, speed }) => {
    const model = (radius * velocity * omega) / (ROOT8 * speed * speed) + (bend * velocity) / omega;
    return sum + ((q - model) / spread) ** 2;
  }, 0);
  const excess = tones.length > 2 ? Math.max(1, left / (tones.length - 2)) : 1;
  const um = radius * UM;
  const own = Math.sqrt((excess * sbb) / determinant) * UM;
  return { um, own, spread: Math.hypot(own, MODEL_SHARE * um) };
}

/** What a tone's second harmonic tells of the pinch. */
export const pinchTone = ({ difference, spread, velocity, omega, speed }: SecondHarmonic): PinchTone => ({
  q: difference.im,
  spread,
  velocity,
  omega,
  speed,
});

export type AbsolutePolarity =
  | { readonly found: true; readonly sign: 1 | -1; readonly radius: HeardRadius; readonly bands: readonly number[] }
  | { readonly found: false; readonly why: 'pinch-weak' | 'pinch-disagrees' };

/** spreads that the radius must stand off zero */
const DECIDED_AT = 3;
/** no tip is sharper, µm */
const LEAST_UM = 2;

/** Decided where the surest way is sure, and no other sure one contradicts it. */
export function absolutePolarityOf(radii: readonly HeardRadius[]): AbsolutePolarity {
  const sure = radii.filter(({ um, spread }) => Math.abs(um) > Math.max(DECIDED_AT * spread, LEAST_UM));
  if (sure.length === 0) return { found: false, why: 'pinch-weak' };
  const sign = Math.sign(sure[0].um);
  if (sure.some(({ um }) => Math.sign(um) !== sign)) return { found: false, why: 'pinch-disagrees' };
  const best = sure.reduce((a, b) => (a.spread < b.spread ? a : b));
  return { found: true, sign: sign > 0 ? 1 : -1, radius: best, bands: sure.flatMap(({ bands }) => bands) };
}
