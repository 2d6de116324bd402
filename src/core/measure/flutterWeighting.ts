/**
 * Weightings of speed deviation against the rate at which it comes and goes.
 *
 * Weighted: IEC 60386, the table from memory, not seen in a source. It gives points and nothing between them; instruments and
 * programs join them by a smooth curve or by straight lines, up to 0.35 dB apart (at once per turn of 33⅓, of all places): at
 * 0.556 Hz straight lines give −10.23 dB, a cubic that keeps slopes monotone −9.98, one through four points −9.93, a network
 * of seven constants fitted to the points −9.87. The weighting used lies between: the monotone cubic, a third of the way
 * towards the straight lines. Outside the table (0.1 to 200 Hz) the end slopes go on.
 * Unweighted: flat 0.1 to 200 Hz; half a cosine in log f takes it to nothing at 0.05 Hz and at 215 Hz.
 *
 * @checked test/standards/flutterWeighting.test.ts, against the table and its maximum at 4 Hz
 */

/** Hz, dB */
const WEIGHTING_TABLE: readonly (readonly [number, number])[] = [
  [0.1, -48.0],
  [0.2, -30.6],
  [0.315, -19.7],
  [0.4, -15.0],
  [0.63, -8.4],
  [0.8, -6.0],
  [1.0, -4.2],
  [1.6, -1.8],
  [2, -0.9],
  [4, 0],
  [6.3, -0.9],
  [10, -2.1],
  [20, -5.9],
  [40, -10.4],
  [63, -14.2],
  [100, -17.3],
  [200, -23.0],
];

/** share of the way from the smooth curve to the straight lines */
const TOWARDS_STRAIGHT = 1 / 3;

const logF = WEIGHTING_TABLE.map(([f]) => Math.log10(f));
const db = WEIGHTING_TABLE.map(([, v]) => v);
/** Slopes at the points by Fritsch and Carlson 1980 (from memory): no overshoot between points. */
const slopes = (() => {
  const n = db.length;
  const secant = Array.from({ length: n - 1 }, (_, i) => (db[i + 1] - db[i]) / (logF[i + 1] - logF[i]));
  return db.map((_, i) => {
    if (i === 0) return secant[0];
    if (i === n - 1) return secant[n - 2];
    const [a, b] = [secant[i - 1], secant[i]];
    if (a * b <= 0) return 0;
    const [h1, h2] = [logF[i] - logF[i - 1], logF[i + 1] - logF[i]];
    return (3 * (h1 + h2)) / ((2 * h2 + h1) / a + (h2 + 2 * h1) / b);
  });
})();

/** The smooth curve through the points, dB re 4 Hz. @param hz above 0 */
export function smoothWeightingDb(hz: number): number {
  if (!(hz > 0 && hz < Infinity)) throw new RangeError(`hz ${hz} must be above 0`);
  const x = Math.log10(hz);
  const last = logF.length - 1;
  if (x <= logF[0]) return db[0] + slopes[0] * (x - logF[0]);
  if (x >= logF[last]) return db[last] + slopes[last] * (x - logF[last]);
  let i = 0;
  while (x > logF[i + 1]) i += 1;
  const h = logF[i + 1] - logF[i];
  const u = (x - logF[i]) / h;
  return (
    db[i] * (1 + 2 * u) * (1 - u) ** 2 +
    slopes[i] * h * u * (1 - u) ** 2 +
    db[i + 1] * u * u * (3 - 2 * u) +
    slopes[i + 1] * h * u * u * (u - 1)
  );
}

/** Straight lines over log f through the points, dB re 4 Hz. @param hz above 0 */
export function straightWeightingDb(hz: number): number {
  const x = Math.log10(hz);
  const last = logF.length - 1;
  if (!(x > logF[0] && x < logF[last])) return smoothWeightingDb(hz);
  let i = 0;
  while (x > logF[i + 1]) i += 1;
  return db[i] + ((db[i + 1] - db[i]) * (x - logF[i])) / (logF[i + 1] - logF[i]);
}

/** dB re 4 Hz, between the two. @param hz above 0 */
export function weightingDb(hz: number): number {
  return smoothWeightingDb(hz) + TOWARDS_STRAIGHT * (straightWeightingDb(hz) - smoothWeightingDb(hz));
}

/** How far the straight lines lie from what is used, as a ratio of amplitude. @param hz above 0 */
export function weightingDoubt(hz: number): number {
  return (Math.LN10 / 20) * (1 - TOWARDS_STRAIGHT) * Math.abs(smoothWeightingDb(hz) - straightWeightingDb(hz));
}

const FLAT_FROM_HZ = 0.1;
export const FLAT_TO_HZ = 200;

/** Amplitude factor of the IEC weighting; nothing above 215 Hz, where the tone's sidebands are no longer kept. */
export function weightedGain(hz: number): number {
  if (!(hz > 0)) return 0;
  return 10 ** (weightingDb(hz) / 20) * edge(hz, FLAT_TO_HZ, 215);
}

/** Amplitude factor of the flat 0.1 to 200 Hz. */
export function unweightedGain(hz: number): number {
  if (!(hz > 0)) return 0;
  return edge(hz, FLAT_FROM_HZ, 0.05) * edge(hz, FLAT_TO_HZ, 215);
}

/** 1 on the near side of `start`, half a cosine in log f down to 0 at `end`. */
function edge(hz: number, start: number, end: number): number {
  const u = Math.log(hz / start) / Math.log(end / start);
  if (u <= 0) return 1;
  return u >= 1 ? 0 : 0.5 * (1 + Math.cos(Math.PI * u));
}
