/**
 * Whether anything between 4 and 15 kHz is locked to a loud tone, beyond what noise leaves in the mean: half octaves, each overlapping its neighbours, and the
 * whole. Σ |M|²/σ² over H harmonics is χ² of 2H degrees of freedom where there is nothing; Wilson and Hilferty's cube root makes it normal.
 *
 * What leaks from the other wall is first taken off: with a complex factor that runs straight over a half octave, where the other wall has it stronger; the whole is then not asked. Both walls' own
 * losses lie half a period apart, so that their harmonics alternate in sign and do not pass for a leak.
 */
import type { BurstReading, ChannelBursts, Lines } from './burstEstimator.ts';

type Channel = 'left' | 'right';

export interface BandHeard {
  /** indices of the lines: from, and one past the last */
  readonly from: number;
  readonly to: number;
  /** standard deviations over what noise does */
  readonly z: number;
  /** Σ|M|² over the lines beyond the noise's, and what noise scatters it by (1 σ) */
  readonly power: number;
  readonly spread: number;
  /** Σ|M|² of the other wall's that may be left in it, as a rule and at most */
  readonly left: number;
  readonly may: number;
}

const HALF_OCTAVES = [4000, 4757, 5657, 6727, 8000, 9514, 11_314];
/** a leak is looked for where the other wall is so sure, and has so much more of it, power: what both have alike is no leak */
const SURE = 6;
const MORE = 2;
/** complex numbers that it takes, lines that can tell it, and lines over which it runs straight no more: bands beyond are not asked then */
const FITTED = 2;
const [FEW, MANY] = [4, 8];
/** what stays of a leak and of the other wall's own, power: bent generators turn it and it leaks again, never just so. As a rule, and at most */
const STAYS = { leak: 0.02, other: 1e-4 };
const MAY_STAY = { leak: 0.3, other: 3e-3 };

/** Deviations from the middle of a χ² of `freedom` degrees, as a normal's. */
const zOf = (chiSquare: number, freedom: number): number => {
  const nine = 2 / (9 * freedom);
  return (Math.cbrt(chiSquare / freedom) - (1 - nine)) / Math.sqrt(nine);
};

/** The χ² over its degrees of freedom that is so many deviations out. */
export const overAt = (z: number, freedom: number): number => {
  const nine = 2 / (9 * freedom);
  return Math.max(0, 1 - nine + z * Math.sqrt(nine)) ** 3;
};

export function bandsOf({ hz, first, left }: BurstReading): { from: number; to: number }[] {
  const last = left.lines.re.length;
  const whole = { from: 0, to: last };
  const parts = HALF_OCTAVES.map((low) => ({
    from: Math.max(0, Math.ceil(low / hz) - first),
    to: Math.min(last, Math.floor((low * Math.SQRT2) / hz) - first + 1),
  })).filter(({ from, to }) => to - from >= 2 && to - from < last);
  return [...parts, whole];
}

const sum = (from: number, to: number, of: (i: number) => number): number => {
  let all = 0;
  for (let i = from; i < to; i++) all += of(i);
  return all;
};
const squareAt = ({ re, im }: Lines, i: number): number => re[i] ** 2 + im[i] ** 2;

/** χ² against noise, as a normal's deviations. */
export const lockedZ = (lines: Lines, from: number, to: number): number =>
  zOf(2 * sum(from, to, (i) => squareAt(lines, i) / Math.max(1e-40, lines.variance[i])), 2 * (to - from));

/** One band of one channel. */
export function heardIn(
  reading: BurstReading,
  channel: Channel,
  { from, to }: { from: number; to: number },
): BandHeard {
  const own = reading[channel];
  const other = reading[channel === 'left' ? 'right' : 'left'];
  const plain = { from, to, ...excess(own.lines, from, to, 0), left: 0, may: 0 };
  const share = (of: ChannelBursts): number => sum(from, to, (i) => squareAt(of.lines, i)) / Math.max(1e-40, of.tone);
  if (share(other) <= MORE * share(own) || lockedZ(other.lines, from, to) < SURE) return plain;
  // as it would be if it were as loud on this side
  const power = share(other) * own.tone;
  const isWhole = to - from === own.lines.re.length;
  if (to - from < FEW || (isWhole && to - from > MANY)) return { ...plain, z: 0, left: power, may: power };
  const { lines, leak } = withoutLeak(own.lines, other.lines, from, to);
  return {
    ...{ from, to, ...excess(lines, from, to, FITTED) },
    left: STAYS.leak * leak + STAYS.other * power,
    may: MAY_STAY.leak * leak + MAY_STAY.other * power,
  };
}

/** @param fitted complex factors that were taken off */
function excess(lines: Lines, from: number, to: number, fitted: number) {
  const count = to - from;
  const free = (count - fitted) / count;
  const over = sum(from, to, (i) => squareAt(lines, i) / Math.max(1e-40, lines.variance[i]));
  return {
    z: zOf(2 * over, 2 * (count - fitted)),
    power: sum(from, to, (i) => squareAt(lines, i) - free * lines.variance[i]),
    spread: Math.sqrt(sum(from, to, (i) => lines.variance[i] ** 2)),
  };
}

/** own = (a + b x) · other, x from −1 to 1 over the band, by least squares: what is left, and Σ|·|² of what is taken off. */
function withoutLeak(own: Lines, other: Lines, from: number, to: number): { lines: Lines; leak: number } {
  const x = (i: number): number => (2 * i - from - to + 1) / (to - from - 1);
  const [s0, s1, s2] = [0, 1, 2].map((k) => sum(from, to, (i) => x(i) ** k * squareAt(other, i)));
  const determinant = Math.max(1e-80, s0 * s2 - s1 * s1);
  const solved = (product: (i: number) => number): [number, number] => {
    const [p0, p1] = [sum(from, to, product), sum(from, to, (i) => x(i) * product(i))];
    return [(s2 * p0 - s1 * p1) / determinant, (s0 * p1 - s1 * p0) / determinant];
  };
  const re = solved((i) => own.re[i] * other.re[i] + own.im[i] * other.im[i]);
  const im = solved((i) => own.im[i] * other.re[i] - own.re[i] * other.im[i]);
  const factor = (i: number) => ({ re: re[0] + re[1] * x(i), im: im[0] + im[1] * x(i) });
  const lines: Lines = {
    re: own.re.map((v, i) => v - factor(i).re * other.re[i] + factor(i).im * other.im[i]),
    im: own.im.map((v, i) => v - factor(i).re * other.im[i] - factor(i).im * other.re[i]),
    variance: own.variance.map((v, i) => v + (factor(i).re ** 2 + factor(i).im ** 2) * other.variance[i]),
  };
  return { lines, leak: sum(from, to, (i) => (factor(i).re ** 2 + factor(i).im ** 2) * squareAt(other, i)) };
}
