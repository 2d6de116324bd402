/** Statistics that a few wild values cannot move, and the coverage factor for few degrees of freedom. */

/** Middle value; 0 of nothing. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  if (sorted.length === 0) return 0;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

/** Value below which the share `q` (0 to 1) of the values lies, straight between neighbours; 0 of nothing. */
export function quantile(values: ArrayLike<number>, q: number): number {
  if (!(q >= 0 && q <= 1)) throw new RangeError(`q ${q} must be from 0 to 1`);
  const sorted = Float64Array.from(values).sort();
  if (sorted.length === 0) return 0;
  const at = q * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(sorted.length - 1, low + 1);
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

/**
 * Student's t for 95.45 % over two sides: what replaces k = 2 where the spread itself was estimated from little.
 * Cornish-Fisher expansion from the normal's 2.0; within 0.5 % of the tables for ν ≥ 3.
 * @source JCGM 100:2008 table G.2 for the check values (from memory, not seen in a source)
 */
export function coverageFactor(degreesOfFreedom: number): number {
  const v = degreesOfFreedom;
  if (!(v > 0)) throw new RangeError(`degreesOfFreedom ${v} must be above 0`);
  if (v <= 1) return 13.97;
  if (v <= 2) return 13.97 + (v - 1) * (4.53 - 13.97);
  if (v <= 3) return 4.53 + (v - 2) * (3.31 - 4.53);
  const z = 2;
  const g1 = (z ** 3 + z) / 4;
  const g2 = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const g3 = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  const g4 = (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92160;
  return z + g1 / v + g2 / v ** 2 + g3 / v ** 3 + g4 / v ** 4;
}
