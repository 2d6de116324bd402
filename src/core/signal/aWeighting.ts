/**
 * A-weighting as an analytic function of frequency.
 *
 *   A(f) = 20 lg [ f4² f⁴ / ((f² + f1²) √(f² + f2²) √(f² + f3²) (f² + f4²)) ] − A(1 kHz)
 *
 * The four pole frequencies follow from f_r = 1 kHz, f_L = 10^1.5, f_H = 10^3.9, f_A = 10^2.45 Hz and D² = 1/2:
 *
 *   b = (f_r² + f_L² f_H² / f_r² − D (f_L² + f_H²)) / (1 − D),   c = f_L² f_H²
 *   f1² = (−b − √(b² − 4c)) / 2,  f4² = (−b + √(b² − 4c)) / 2,  f2 = f_A (3 − √5)/2,  f3 = f_A (3 + √5)/2
 *
 * Tables are printed for the exact third-octave frequencies 1000 · 10^(k/10), not for their rounded names: at "16 Hz" that
 * makes 0.27 dB.
 *
 * @source IEC 61672-1 Annex E, second-hand: pole digits from memory, held against the table as in GOST 17187-2010
 * @checked test/standards/aWeighting.test.ts
 */
const [FR, FL, FH, FA, D] = [1000, 10 ** 1.5, 10 ** 3.9, 10 ** 2.45, Math.SQRT1_2];
const c = FL ** 2 * FH ** 2;
const b = (FR ** 2 + c / FR ** 2 - D * (FL ** 2 + FH ** 2)) / (1 - D);
const root = Math.sqrt(b * b - 4 * c);

/** Hz: f1 (double), f2, f3, f4 (double) */
export const A_WEIGHTING_POLES_HZ = [
  Math.sqrt((-b - root) / 2),
  ((3 - Math.sqrt(5)) / 2) * FA,
  ((3 + Math.sqrt(5)) / 2) * FA,
  Math.sqrt((-b + root) / 2),
] as const;

function unscaled(hz: number): number {
  const [f1, f2, f3, f4] = A_WEIGHTING_POLES_HZ;
  const ff = hz * hz;
  return (f4 ** 2 * ff * ff) / ((ff + f1 ** 2) * Math.sqrt((ff + f2 ** 2) * (ff + f3 ** 2)) * (ff + f4 ** 2));
}

const AT_1_KHZ = unscaled(1000);

/** Amplitude factor, 1 at 1 kHz. @param hz 0 to 1 MHz */
export function aWeightingGain(hz: number): number {
  if (!(hz >= 0 && hz <= 1e6)) throw new RangeError(`hz ${hz} must be from 0 to 1000000`);
  return unscaled(hz) / AT_1_KHZ;
}
