/** Seeded normal numbers for Monte Carlo: the same seed gives the same draws everywhere. */

/**
 * Standard normal numbers from a seed (32-bit mixing generator, Box–Muller).
 *
 * @param seed whole number
 * @throws RangeError where the seed is not a whole number
 */
export function normalNumbers(seed: number): () => number {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed is ${seed}; it must be a whole number`);
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 4294967296;
  };
  let spare: number | null = null;
  return () => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    const size = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = size * Math.sin(angle);
    return size * Math.cos(angle);
  };
}

/** Value below which a share of sorted numbers lies (straight between neighbours). */
export function quantile(sorted: ArrayLike<number>, share: number): number {
  const place = share * (sorted.length - 1);
  const low = Math.floor(place);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low] + (place - low) * (sorted[high] - sorted[low]);
}
