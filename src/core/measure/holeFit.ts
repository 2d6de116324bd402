/**
 * Hole and platter from the once-per-turn phasors of one continuous recording:
 *
 *   p_j = (E h(r_j) + W) e^(iδ t_j) + noise
 *
 * E is the hole off centre, mm, W the platter's own part, h the arm's (armPhase.ts). δ is how far the rotation lies from what
 * the tones tell: their cut is not certain, and over the minutes between two bands that is much phase. It is taken over a
 * grid, each point weighed by what the phasors, their own drift of phase and the prior say; at each point E and W follow
 * linearly. Both have weak priors, so that one radius gives an answer as well, with the ± that it deserves.
 */
import { type Complex, conjugate, less, plus, scaled, times } from '../units/complex.ts';
import { wrapped } from '../units/units.ts';
import type { ArmPhase } from './armPhase.ts';

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
  readonly arm: ArmPhase;
  /** mm */
  readonly radiusMm: number;
}

/** What is held of the answer before; all standard, of either part. */
export interface HolePriors {
  /** mm */
  readonly hole: number;
  /** ratio */
  readonly platter: number;
  /** δ beside what the bands themselves show, rad/s */
  readonly rotation: { readonly mean: number; readonly spread: number };
  /** mm */
  readonly radius: number;
}

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
  /** what one mm of a warp's lift along the groove is taken for, mm of hole, ratio of platter: evenly or growing outwards */
  readonly ofWarp: { readonly hole: number; readonly platter: number };
  /** χ² at its best: of the phasors, their own drift of phase and the priors */
  readonly misfit: number;
  /** the hole's part of each phasor, as that was heard; `variance` of either part */
  readonly ofHole: readonly (Complex & { readonly variance: number })[];
}

const STEPS = 400;
const REACH = 4;

const turned = (angle: number): Complex => ({ re: Math.cos(angle), im: Math.sin(angle) });
const square = (a: Complex): number => a.re * a.re + a.im * a.im;

/** @param bands at least one */
export function fitHole(bands: readonly BandPhasor[], priors: HolePriors): HoleFit {
  // a radius that is off moves a phasor by its share of the hole: first without, then with the hole found
  const first = solve(bands, priors, () => 0);
  return solve(bands, priors, (b) => ((first.hole.size * priors.radius) / (b.radiusMm * b.radiusMm)) ** 2);
}

/** E and W from phasors of one rotation: normal equations [[a, b], [b*, d]], the same for every δ. */
class Parting {
  readonly weights: readonly number[];
  readonly varHole: number;
  readonly varPlatter: number;

  private readonly bands: readonly BandPhasor[];
  private readonly priors: HolePriors;
  private readonly a: number;
  private readonly b: Complex;
  private readonly d: number;

  constructor(bands: readonly BandPhasor[], priors: HolePriors, extra: (band: BandPhasor) => number) {
    this.bands = bands;
    this.priors = priors;
    this.weights = bands.map((b) => 1 / (b.variance + extra(b) + 1e-16));
    this.a = this.sum((w, { arm }) => w * square(arm.hole)) + 1 / priors.hole ** 2;
    this.d = this.sum((w) => w) + 1 / priors.platter ** 2;
    this.b = bands.reduce<Complex>((s, { arm }, i) => plus(s, scaled(conjugate(arm.hole), this.weights[i])), {
      re: 0,
      im: 0,
    });
    const det = this.a * this.d - square(this.b);
    this.varHole = this.d / det;
    this.varPlatter = this.a / det;
  }

  private sum(of: (weight: number, band: BandPhasor) => number): number {
    return this.bands.reduce((s, band, i) => s + of(this.weights[i], band), 0);
  }

  answer(y: readonly Complex[]): { hole: Complex; platter: Complex } {
    const { a, b, d, weights: w, bands } = this;
    const zero = { re: 0, im: 0 };
    const u = y.reduce<Complex>((s, v, i) => plus(s, scaled(times(conjugate(bands[i].arm.hole), v), w[i])), zero);
    const v = y.reduce<Complex>((s, one, i) => plus(s, scaled(one, w[i])), zero);
    const det = a * d - square(b);
    return {
      hole: scaled(less(scaled(u, d), times(b, v)), 1 / det),
      platter: scaled(less(scaled(v, a), times(conjugate(b), u)), 1 / det),
    };
  }

  /** χ² of what the answer leaves of the phasors */
  residual(y: readonly Complex[], hole: Complex, platter: Complex): number {
    return y.reduce(
      (s, v, i) => s + this.weights[i] * square(less(v, plus(times(this.bands[i].arm.hole, hole), platter))),
      0,
    );
  }

  ofPriors(hole: Complex, platter: Complex): number {
    return square(hole) / this.priors.hole ** 2 + square(platter) / this.priors.platter ** 2;
  }

  /** Variance of either part that the phasors' own noise makes. */
  noise(): { hole: number; platter: number } {
    const of = { hole: 0, platter: 0 };
    this.bands.forEach((band, i) => {
      const gain = this.answer(this.bands.map((_, k) => ({ re: k === i ? 1 : 0, im: 0 })));
      of.hole += square(gain.hole) * band.variance;
      of.platter += square(gain.platter) * band.variance;
    });
    return of;
  }

  /**
   * Nobody knows how a record is warped: evenly, all of it then reads as hole, or more outwards, and reads as platter. Of the hole the
   * whole of it is allowed for, of the platter the mean square, no growth between likelier
   * than another: a platter's verdict needs no more than is likely.
   */
  ofWarp(): { hole: number; platter: number } {
    const rim = Math.max(...this.bands.map((b) => b.radiusMm));
    const taken = [() => 1, (b: BandPhasor) => b.radiusMm / rim].map((lift) =>
      this.answer(this.bands.map((b) => scaled(b.arm.warp, lift(b)))),
    );
    return {
      hole: Math.sqrt(Math.max(...taken.map((t) => square(t.hole)))),
      platter: Math.sqrt(taken.reduce((s, t) => s + square(t.platter) / 3, 0)),
    };
  }
}

interface Point {
  readonly delta: number;
  readonly hole: Complex;
  readonly platter: Complex;
  readonly misfit: number;
  /** share of the whole probability */
  readonly share: number;
}

/** δ on a grid, by the prior and the bands' own phases; the phases between the bands may then be much sharper. */
function posterior(
  bands: readonly BandPhasor[],
  parting: Parting,
  { rotation }: HolePriors,
  { turnedTo, apartS }: Turning,
): Point[] {
  const at = (delta: number): Omit<Point, 'share'> => {
    const y = turnedTo(delta);
    const { hole, platter } = parting.answer(y);
    const misfit =
      parting.residual(y, hole, platter) +
      parting.ofPriors(hole, platter) +
      bands.reduce((s, b) => s + (delta - b.turning) ** 2 / b.turningVariance, 0) +
      ((delta - rotation.mean) / rotation.spread) ** 2;
    return { delta, hole, platter, misfit };
  };
  const own = bands.reduce((s, b) => s + 1 / b.turningVariance, 0) + 1 / rotation.spread ** 2;
  const middle =
    (bands.reduce((s, b) => s + b.turning / b.turningVariance, 0) + rotation.mean / rotation.spread ** 2) / own;
  const wide = REACH / Math.sqrt(own);
  const steps = Math.min(20_000, Math.max(STEPS, Math.ceil((wide * apartS) / 0.05)));
  let points = Array.from({ length: steps + 1 }, (_, k) => at(middle + wide * ((2 * k) / steps - 1)));
  const best = points.reduce((x, p) => (p.misfit < x.misfit ? p : x));
  if (points.filter((p) => p.misfit < best.misfit + 9).length < 24) {
    const near = (3 * wide) / steps;
    points = Array.from({ length: STEPS + 1 }, (_, k) => at(best.delta + near * ((2 * k) / STEPS - 1)));
  }
  const least = Math.min(...points.map((p) => p.misfit));
  const whole = points.reduce((s, p) => s + Math.exp(-(p.misfit - least) / 2), 0);
  return points.map((p) => ({ ...p, share: Math.exp(-(p.misfit - least) / 2) / whole }));
}

interface Turning {
  /** the phasors as they are where the rotation goes by δ faster */
  readonly turnedTo: (delta: number) => Complex[];
  /** of a band from the instant that the phases are taken from */
  readonly apartS: number;
}

function solve(bands: readonly BandPhasor[], priors: HolePriors, extra: (band: BandPhasor) => number): HoleFit {
  const weight = bands.reduce((sum, b) => sum + 1 / b.variance, 0);
  const centreS = bands.reduce((sum, b) => sum + b.middleS / b.variance, 0) / weight;
  const turnedTo = (delta: number): Complex[] =>
    bands.map((band) => times(band, turned(-delta * (band.middleS - centreS))));
  const parting = new Parting(bands, priors, extra);
  const points = posterior(bands, parting, priors, {
    turnedTo,
    apartS: Math.max(...bands.map((one) => Math.abs(one.middleS - centreS)), 1),
  });
  const best = points.reduce((x, p) => (p.misfit < x.misfit ? p : x));
  const mean = (of: (p: Point) => number): number => points.reduce((s, p) => s + p.share * of(p), 0);

  // scatter beyond what the bands allow themselves
  const freedom = 2 * bands.length - 4;
  const excess =
    freedom > 0 ? Math.max(1, parting.residual(turnedTo(best.delta), best.hole, best.platter) / freedom) : 1;
  const noise = parting.noise();
  const estimate = (of: (p: Point) => Complex, variance: number, own: number): SizeEstimate => {
    const rms = Math.sqrt(mean((p) => square(of(p))));
    const wander = mean((p) => (Math.sqrt(square(of(p))) - rms) ** 2);
    return {
      // noise adds to a size on average what its square says
      size: Math.sqrt(Math.max(0, rms * rms - variance)),
      spread: Math.sqrt(variance + wander),
      signal: Math.sqrt(own + wander),
    };
  };
  const varHole = parting.varHole * excess;
  const bearingOf = ({ hole, delta }: Point): number => -Math.atan2(hole.im, hole.re) + delta * centreS;
  const bearing = bearingOf(best);
  return {
    hole: estimate((p) => p.hole, varHole, noise.hole * excess),
    bearing: wrapped(bearing),
    bearingSpread: Math.sqrt(
      varHole / Math.max(square(best.hole), 1e-18) + mean((p) => wrapped(bearingOf(p) - bearing) ** 2),
    ),
    platter: estimate((p) => p.platter, parting.varPlatter * excess, noise.platter * excess),
    ofWarp: parting.ofWarp(),
    misfit: best.misfit,
    ofHole: bands.map((band) => {
      const part = (p: Point): Complex =>
        times(times(band.arm.hole, p.hole), turned(p.delta * (band.middleS - centreS)));
      const centre = { re: mean((p) => part(p).re), im: mean((p) => part(p).im) };
      const wander = mean((p) => square(less(part(p), centre))) / 2;
      return { ...centre, variance: square(band.arm.hole) * varHole + wander };
    }),
  };
}
