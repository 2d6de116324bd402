/**
 * The size of a leak when something of unknown phase may stand on it. With a complex normal disturbance of spread σ a part,
 * a size r heard for a true size v follows Rice's distribution:
 *
 *   P(r ≤ x) = Σ_j Poisson(j; v²/2σ²) · Γ_cdf(j + 1, x²/2σ²)
 *
 * The interval holds every true size for which r lies between the 2.5 % and the 97.5 % points: so it holds the truth in 95 % whatever
 * that is. Where even no leak at all would be heard this loud in 2.5 %, its low end is 0 and the separation's high end open.
 *
 * @source Rice 1945; the interval is Neyman's
 * @checked rice.test.ts, against simulated sizes and the closed form for v = 0
 */

/** beyond this many spreads the size is as good as normal */
const FAR = 12;

/** @param r of the size @param v true size @param sigma of either part, above 0; all in one unit @returns probability that a size up to r is heard */
export function riceBelow(r: number, v: number, sigma: number): number {
  if (!(sigma > 0 && v >= 0))
    throw new RangeError(`size ${v} and spread ${sigma}: 0 or more and above 0 were expected`);
  if (!(r > 0)) return 0;
  const [a, b] = [v / sigma, r / sigma];
  if (a > FAR || b > 2 * FAR) return normalBelow(b - Math.hypot(a, 1));
  const lambda = (a * a) / 2;
  const y = (b * b) / 2;
  let weight = Math.exp(-lambda);
  // 1 − the survival of a gamma of shape j + 1
  let term = Math.exp(-y);
  let survival = term;
  let sum = 0;
  const most = Math.ceil(lambda + 12 * Math.sqrt(lambda + 1) + 12);
  for (let j = 0; j <= most; j++) {
    sum += weight * (1 - survival);
    weight *= lambda / (j + 1);
    term *= y / (j + 1);
    survival += term;
  }
  return Math.min(1, Math.max(0, sum));
}

/** The normal distribution, absolute error under 1.5·10⁻⁷ (Abramowitz & Stegun 7.1.26). */
function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const half = (poly * Math.exp(-x * x)) / 2;
  return z > 0 ? 1 - half : half;
}

/** The size v at which r is heard with this probability; the probability falls as v grows. */
function sizeFor(r: number, sigma: number, probability: number): number {
  let low = 0;
  let high = r + 6 * sigma;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (riceBelow(r, middle, sigma) > probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** @returns 95 % interval of the true size; `low` is 0 where nothing bounds it */
export function sizeInterval(r: number, sigma: number): { readonly low: number; readonly high: number } {
  if (!(sigma > 0)) return { low: r, high: r };
  return {
    low: riceBelow(r, 0, sigma) <= 0.975 ? 0 : sizeFor(r, sigma, 0.975),
    // a reading smaller than no leak at all would usually give is luck, not knowledge: without this the interval would be empty
    high: sizeFor(Math.max(r, sigma * Math.sqrt(2 * Math.LN2)), sigma, 0.025),
  };
}
