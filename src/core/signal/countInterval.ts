/**
 * What a count of rare events leaves open: the exact interval of a Poisson mean.
 *
 *   low:  P(X ≥ n | low) = 0.025;   high:  P(X ≤ n | high) = 0.025;   nothing counted leaves no low end, it is 0
 *
 * @param count events counted, a whole number from 0 to 1e6
 * @returns 95 %, in events; never under 0
 * @throws RangeError naming the count
 * @source Garwood, Biometrika 28 (1936) 437
 * @checked countInterval.test.ts
 */
export function countInterval(count: number): { readonly low: number; readonly high: number } {
  if (!(Number.isInteger(count) && count >= 0 && count <= 1e6)) {
    throw new RangeError(`count ${count}: a whole number from 0 to 1000000 was expected`);
  }
  const most = count + 10 * Math.sqrt(count + 1) + 10;
  return {
    low: count === 0 ? 0 : meanWhere((mean) => 1 - atMost(count - 1, mean) < TAIL, 0, count),
    high: meanWhere((mean) => atMost(count, mean) > TAIL, count, most),
  };
}

const TAIL = 0.025;

/** Bisection: the mean at which `below` ceases to hold. */
function meanWhere(below: (mean: number) => boolean, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (below(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** P(X ≤ count), from the largest term down, so that nothing under- or overflows. */
function atMost(count: number, mean: number): number {
  if (mean === 0) return 1;
  const peak = Math.min(count, Math.floor(mean));
  let logPeak = peak * Math.log(mean) - mean;
  for (let k = 2; k <= peak; k++) logPeak -= Math.log(k);
  let sum = 1;
  for (let k = peak, term = 1; k > 0 && term > 1e-18; k--) {
    term *= k / mean;
    sum += term;
  }
  for (let k = peak + 1, term = 1; k <= count && term > 1e-18; k++) {
    term *= mean / k;
    sum += term;
  }
  return Math.min(1, sum * Math.exp(logPeak));
}
