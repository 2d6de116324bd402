/** What taps let through, by their sum. */

/** Magnitude of symmetric taps at a frequency. */
export function tapsMagnitude(taps: Float64Array, frequencyHz: number, sampleRateHz: number): number {
  const centre = (taps.length - 1) / 2;
  let sum = 0;
  for (let n = 0; n < taps.length; n++) {
    sum += taps[n] * Math.cos((2 * Math.PI * frequencyHz * (n - centre)) / sampleRateHz);
  }
  return Math.abs(sum);
}
