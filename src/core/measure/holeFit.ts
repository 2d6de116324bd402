/**
 * Hole and platter from the once-per-turn phasors of one continuous recording:
 *
 *   p_j = (E h(r_j) + W) e^(iδ t_j) + noise
 *
 * E is the hole off centre, mm, W the platter's own part (with what a warp adds), h the arm's (armPhase.ts). δ is how far the
 * rotation lies from what the tones tell: their cut is not certain, and over the minutes between two bands that is much phase.
 * It is taken over a grid, each point weighed by what the phasors, their own drift of phase and the prior say; at each point E
 * and W follow linearly. Both have weak priors, so that one radius gives an answer as well, with the ± that it deserves.
 */
import type { Complex } from './armPhase.ts';

export interface BandPhasor {
  /** ratio, against the recording's first frame for the rotation as heard */
  readonly re: number;
  readonly im: number;
  /** of either part, from the signal */
  readonly variance: number;
  /** s */
  readonly middleS: number;
  /** δ as this band's own phase shows it, rad/s, and its variance */
  readonly turning: number;
  readonly turningVariance: number;
  /** 1/mm */
  readonly h: Complex;
  /** mm */
  readonly radiusMm: number;
}

/** Standard, of either part. House guesses: records as they are pressed, platters that would pass for good. */
const HOLE_PRIOR_MM = 0.3;
const PLATTER_PRIOR = 5e-4;

export interface SizeEstimate {
  readonly size: number;
  /** standard, of the size */
  readonly spread: number;
  /** the signal's share of it */
  readonly signal: number;
}

export interface HoleFit {
  /** mm */
  readonly hole: SizeEstimate;
  /** rad: the groove's centre against the pivot at the recording's first frame, against the turning; standard */
  readonly bearing: number;
  readonly bearingSpread: number;
  /** ratio */
  readonly platter: SizeEstimate;
  /** the platter's phasor where the phases are taken from `middleS` of the bands, for comparison between fits */
  readonly platterVector: Complex;
  /** what one mm of a warp's lift along the groove, e^(iα)/(r cos θ), is taken for: mm of hole, ratio of platter */
  readonly ofWarp: { readonly hole: number; readonly platter: number };
  /** the hole's part of each phasor, as that was heard; `variance` of either part */
  readonly ofHole: readonly (Complex & { readonly variance: number })[];
}

const STEPS = 400;
const REACH = 4;

const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const conj = (a: Complex): Complex => ({ re: a.re, im: -a.im });
const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const scaled = (a: Complex, by: number): Complex => ({ re: a.re * by, im: a.im * by });
const turned = (angle: number): Complex => ({ re: Math.cos(angle), im: Math.sin(angle) });
const square = (a: Complex): number => a.re * a.re + a.im * a.im;

/**
 * @param bands at least one
 * @param rotationPrior standard uncertainty of the rotation beside what the bands themselves show, rad/s
 * @param radiusSpread standard, mm
 */
export function fitHole(bands: readonly BandPhasor[], rotationPrior: number, radiusSpread: number): HoleFit {
  const usual =
    bands.reduce((sum, b) => sum + b.middleS / b.variance, 0) / bands.reduce((sum, b) => sum + 1 / b.variance, 0);
  // a radius that is off moves a phasor by its share of the hole: first without, then with the hole found
  const first = solve(bands, rotationPrior, usual, () => 0);
  return solve(bands, rotationPrior, usual, (b) => ((first.hole.size * radiusSpread) / (b.radiusMm * b.radiusMm)) ** 2);
}

function solve(
  bands: readonly BandPhasor[],
  rotationPrior: number,
  centreS: number,
  extra: (band: BandPhasor) => number,
): HoleFit {
  const w = bands.map((b) => 1 / (b.variance + extra(b) + 1e-16));
  const sum = (of: (i: number) => number): number => bands.reduce((s, _, i) => s + of(i), 0);
  // normal matrix of (E, W), the same for every δ: [[a, b], [b*, d]]
  const a = sum((i) => w[i] * square(bands[i].h)) + 1 / HOLE_PRIOR_MM ** 2;
  const d = sum((i) => w[i]) + 1 / PLATTER_PRIOR ** 2;
  const b = bands.reduce<Complex>((s, band, i) => plus(s, scaled(conj(band.h), w[i])), { re: 0, im: 0 });
  const det = a * d - square(b);
  const answer = (y: readonly Complex[]): { hole: Complex; platter: Complex } => {
    const u = y.reduce<Complex>((s, v, i) => plus(s, scaled(times(conj(bands[i].h), v), w[i])), { re: 0, im: 0 });
    const v = y.reduce<Complex>((s, one, i) => plus(s, scaled(one, w[i])), { re: 0, im: 0 });
    return {
      hole: scaled(plus(scaled(u, d), scaled(times(b, v), -1)), 1 / det),
      platter: scaled(plus(scaled(v, a), scaled(times(conj(b), u), -1)), 1 / det),
    };
  };
  const at = (delta: number) => {
    const y = bands.map((band) => times(band, turned(-delta * (band.middleS - centreS))));
    const { hole, platter } = answer(y);
    const misfit =
      sum((i) => w[i] * square(plus(y[i], scaled(plus(times(bands[i].h, hole), platter), -1)))) +
      square(hole) / HOLE_PRIOR_MM ** 2 +
      square(platter) / PLATTER_PRIOR ** 2 +
      sum((i) => (delta - bands[i].turning) ** 2 / bands[i].turningVariance) +
      (delta / rotationPrior) ** 2;
    return { delta, hole, platter, misfit };
  };
  // δ by the prior and the bands' own phases; the phases between the bands may then be much sharper
  const own = sum((i) => 1 / bands[i].turningVariance) + 1 / rotationPrior ** 2;
  const middle = sum((i) => bands[i].turning / bands[i].turningVariance) / own;
  const apart = Math.max(...bands.map((one) => Math.abs(one.middleS - centreS)), 1);
  const wide = REACH / Math.sqrt(own);
  const steps = Math.min(20_000, Math.max(STEPS, Math.ceil((wide * apart) / 0.05)));
  let points = Array.from({ length: steps + 1 }, (_, k) => at(middle + wide * ((2 * k) / steps - 1)));
  const best = points.reduce((x, p) => (p.misfit < x.misfit ? p : x));
  if (points.filter((p) => p.misfit < best.misfit + 9).length < 24) {
    const near = (3 * wide) / steps;
    points = Array.from({ length: STEPS + 1 }, (_, k) => at(best.delta + near * ((2 * k) / STEPS - 1)));
  }
  const least = Math.min(...points.map((p) => p.misfit));
  const weights = points.map((p) => Math.exp(-(p.misfit - least) / 2));
  const whole = weights.reduce((s, v) => s + v, 0);
  const mean = (of: (p: (typeof points)[number]) => number): number =>
    points.reduce((s, p, k) => s + (weights[k] / whole) * of(p), 0);

  // scatter beyond what the bands allow themselves
  const freedom = 2 * bands.length - 4;
  const residual = sum((i) => {
    const y = times(bands[i], turned(-best.delta * (bands[i].middleS - centreS)));
    return w[i] * square(plus(y, scaled(plus(times(bands[i].h, best.hole), best.platter), -1)));
  });
  const excess = freedom > 0 ? Math.max(1, residual / freedom) : 1;
  const varHole = (d / det) * (freedom > 0 ? excess : 1);
  const varPlatter = (a / det) * (freedom > 0 ? excess : 1);
  // what the noise of the phasors alone does to the answer
  const gains = bands.map((_, i) => answer(bands.map((_, k) => ({ re: k === i ? 1 : 0, im: 0 }))));
  const noiseHole = excess * sum((i) => square(gains[i].hole) * bands[i].variance);
  const noisePlatter = excess * sum((i) => square(gains[i].platter) * bands[i].variance);
  const warped = answer(bands.map(({ h }) => ({ re: Math.sqrt(square(h)), im: 0 })));
  const estimate = (of: (p: (typeof points)[number]) => Complex, variance: number, noise: number): SizeEstimate => {
    const rms = Math.sqrt(mean((p) => square(of(p))));
    const wander = mean((p) => (Math.sqrt(square(of(p))) - rms) ** 2);
    return {
      // noise adds to a size on average what its square says
      size: Math.sqrt(Math.max(0, rms * rms - variance)),
      spread: Math.sqrt(variance + wander),
      signal: Math.sqrt(noise + wander),
    };
  };
  const hole = estimate((p) => p.hole, varHole, noiseHole);
  const here = best.hole;
  const bearingOf = ({ hole: v, delta }: { hole: Complex; delta: number }): number =>
    -Math.atan2(v.im, v.re) + delta * centreS;
  const bearing = bearingOf(best);
  const wrapped = (x: number): number => x - 2 * Math.PI * Math.round(x / (2 * Math.PI));
  return {
    hole,
    bearing: wrapped(bearing),
    bearingSpread: Math.sqrt(
      varHole / Math.max(square(here), 1e-18) + mean((p) => wrapped(bearingOf(p) - bearing) ** 2),
    ),
    platter: estimate((p) => p.platter, varPlatter, noisePlatter),
    platterVector: best.platter,
    ofWarp: {
      hole: Math.sqrt(square(warped.hole)),
      platter: Math.sqrt(square(warped.platter)),
    },
    ofHole: bands.map((band) => {
      const part = (p: (typeof points)[number]): Complex =>
        times(times(band.h, p.hole), turned(p.delta * (band.middleS - centreS)));
      const centre = { re: mean((p) => part(p).re), im: mean((p) => part(p).im) };
      const wander = mean((p) => square(plus(part(p), scaled(centre, -1)))) / 2;
      return { ...centre, variance: square(band.h) * varHole + wander };
    }),
  };
}
