/**
 * Weightings of rumble, amplitude factors over frequency, as straight lines on logarithmic axes:
 *
 *   unweighted   6 dB an octave up to 10 Hz, 0 dB from 10 to 315 Hz, −12 dB an octave above
 *   weighted     12 dB an octave up to 315 Hz, 0 dB there, −12 dB an octave above
 *
 * `smooth` are the simplest filters with the same ends: first order at 10 Hz, second order with Q = 1 at 315 Hz, which is 0 dB there: a flat part that ends there, as the leaflet has it,
 * rules out one that is 3 dB down. Weighted, a high and a low pass of second order with Q = 1, whose slopes run into the lines and whose product is 0 dB at 315 Hz. How far the two readings of one noise lie apart is what the shape leaves open.
 *
 * @source DIN 45539 and IEC 60098: corners and slopes from memory; no printed table seen. That the weighted curve has its maximum at 315 Hz, where
 * the unweighted one is still flat: leaflet of the test record of DIN 45544. 10 to 315 Hz: ČSN 36 8401, second-hand
 * @checked test/standards/rumbleWeighting.test.ts
 */
export type RumbleWeighting = 'unweighted' | 'weighted';
export type WeightingShape = 'lines' | 'smooth';

const LOW_HZ = 10;
const HIGH_HZ = 315;

/** @param hz above 0 */
export function rumbleGain(weighting: RumbleWeighting, shape: WeightingShape, hz: number): number {
  if (!(hz > 0 && hz < Infinity)) throw new RangeError(`hz ${hz} must be above 0`);
  const x = hz / HIGH_HZ;
  if (shape === 'lines') {
    const above = Math.min(1, 1 / (x * x));
    return weighting === 'weighted' ? Math.min(1, x * x) * above : Math.min(1, hz / LOW_HZ) * above;
  }
  // x²/(1 − x² + ix) times 1/(1 − x² + ix)
  if (weighting === 'weighted') return (x * x) / ((1 - x * x) ** 2 + x * x);
  const lowPass = 1 / Math.sqrt((1 - x * x) ** 2 + x * x);
  const u = hz / LOW_HZ;
  return (u / Math.sqrt(1 + u * u)) * lowPass;
}
