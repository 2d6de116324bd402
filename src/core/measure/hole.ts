/**
 * The hole off centre of a side and the platter's own once-per-turn part, with what each rests on: phasors of all tones that
 * last two turns (rotation.ts), the arm's phases (armPhase.ts), the fit (holeFit.ts), and what geometry and seating may hide.
 */
import { coverageFactor } from '../signal/robust.ts';
import { type ArmGeometry, armPhase } from './armPhase.ts';
import type { Assumed } from './assumed.ts';
import type { TurnAtStart } from './halfTurn.ts';
import { type HoleBreak, holeBreak } from './holeBreak.ts';
import { type BandPhasor, fitHole, type HoleFit, type HolePriors } from './holeFit.ts';
import { fitRotation } from './rotation.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { Estimate } from './toneSegment.ts';

/** Where no band's radius is known, mm: the middle of a side. */
export const UNKNOWN_RADIUS_MM = 100;
/** of the prior: a platter's part less sure than this is the prior's word, not the recording's */
const LEAST_TOLD = 0.7;

export interface TurnPhasor extends BandPhasor {
  readonly tone: ToneBand;
  readonly degreesOfFreedom: number;
  readonly turns: number;
}

/** The first harmonic of rotation of one tone, its segments together. @param rotationHz turns a second as heard */
export function turnPhasor(tone: ToneBand, rotationHz: number): Omit<TurnPhasor, 'arm' | 'radiusMm'> | null {
  const fits = tone.reading.segments.flatMap((s) => {
    const fit = fitRotation(s.trace, rotationHz);
    return fit === null || fit.turns < 2 ? [] : [fit];
  });
  if (fits.length === 0) return null;
  const weights = fits.map((f) => 1 / Math.max(f.variance, 1e-30));
  const sum = weights.reduce((a, b) => a + b, 0);
  const mean = (of: (f: (typeof fits)[number]) => number): number =>
    fits.reduce((s, f, i) => s + weights[i] * of(f), 0) / sum;
  const turningWeight = fits.reduce((s, f) => s + 1 / f.turningVariance, 0);
  return {
    tone,
    re: mean((f) => f.re),
    im: mean((f) => f.im),
    variance: 1 / sum,
    turning: fits.reduce((s, f) => s + f.turning / f.turningVariance, 0) / turningWeight,
    turningVariance: 1 / turningWeight,
    middleS: mean((f) => f.middleS),
    degreesOfFreedom: fits.reduce((s, f) => s + f.degreesOfFreedom, 0),
    turns: fits.reduce((s, f) => s + f.turns, 0),
  };
}

export interface SideHole {
  readonly fit: HoleFit;
  readonly phasors: readonly TurnPhasor[];
  readonly assumed: Assumed;
  /** the recording itself tells the platter from the hole */
  readonly parted: boolean;
  readonly rotationHz: number;
  /** whether the arm's geometry and the bands' radii were given */
  readonly armKnown: boolean;
  readonly tangential: boolean;
  readonly radiiKnown: boolean;
  /** the same phasors on other arms, where nobody described the one that played */
  readonly others: readonly HoleFit[];
  /** coverage factor for 95 % */
  readonly k: number;
  /** bands between which the recording was paused or cut: nothing of this holds then */
  readonly broken: HoleBreak | null;
}

/** @param speed of the deck as heard, ratio − 1 @returns null where no tone lasts two turns */
export function holeOfSide(side: SideReadings, rotationHz: number, speed: Estimate): SideHole | null {
  const heard = side.tones.filter((t) => t.meanHz > 250).flatMap((t) => turnPhasor(t, rotationHz) ?? []);
  const known = heard.filter((p) => p.tone.band.radiusMm !== null);
  const used = known.length > 0 ? known : heard;
  if (used.length === 0) return null;
  const { assumed } = side;
  const radius = known.length > 0 ? assumed.radius : assumed.unknownRadius;
  const priors: HolePriors = {
    hole: assumed.hole.size / 2,
    platter: assumed.platter.size / 200,
    rotation: {
      // a record cut fast is heard fast: the platter turns by so much slower
      mean: (-2 * Math.PI * rotationHz * assumed.cutSpeed.percent) / 100,
      spread: 2 * Math.PI * rotationHz * Math.hypot(Math.sqrt(speed.variance), assumed.cutSpeed.size / 200),
    },
    radius: radius.size / 2,
  };
  const fitWith = (arm: ArmGeometry): { fit: HoleFit; phasors: TurnPhasor[] } | null => {
    const phasors = used.flatMap((p): TurnPhasor[] => {
      const radiusMm = p.tone.band.radiusMm ?? UNKNOWN_RADIUS_MM;
      const phase = armPhase(arm, radiusMm);
      return phase === null ? [] : [{ ...p, radiusMm, arm: phase }];
    });
    if (phasors.length === 0) return null;
    return { fit: fitHole(phasors, priors), phasors };
  };
  const main = fitWith(side.arm ?? assumed.arm.usual);
  if (main === null) return null;
  const others =
    side.arm === null
      ? assumed.arm.others.flatMap((arm) => {
          const other = fitWith(arm);
          return other === null || other.phasors.length < main.phasors.length ? [] : [other.fit];
        })
      : [];
  return {
    ...main,
    assumed,
    parted: main.fit.platter.spread < LEAST_TOLD * priors.platter,
    rotationHz,
    armKnown: side.arm !== null,
    tangential: side.arm === 'tangential',
    radiiKnown: known.length > 0,
    others,
    broken: holeBreak(main.phasors, priors, main.fit),
    k: coverageFactor(main.phasors.reduce((s, p) => s + p.degreesOfFreedom, 0)),
  };
}

/**
 * Expanded: by how much a figure may be off where nobody described the arm. Arms are of one kind or of another, few between: the
 * change is a bound that is often reached, k = 2 is √2 of it (U-shaped distribution).
 */
export function ofOtherArms({ fit, others }: SideHole, figure: (fit: HoleFit) => number): number {
  const own = figure(fit);
  return Math.SQRT2 * Math.max(0, ...others.map((other) => Math.abs(figure(other) - own)));
}

/** The phasors turned to where each band starts: a place on the record. */
export function turnsAtStart(hole: SideHole | null): TurnAtStart[] {
  if (hole === null) return [];
  return hole.phasors.map(({ tone: { band, meanHz }, re, im, variance, degreesOfFreedom }) => {
    const angle = 2 * Math.PI * hole.rotationHz * band.startS;
    return {
      band: band.index,
      sheetBand: band.sheetBand,
      frequencyHz: meanHz,
      radiusMm: band.radiusMm,
      re: re * Math.cos(angle) - im * Math.sin(angle),
      im: re * Math.sin(angle) + im * Math.cos(angle),
      variance,
      degreesOfFreedom,
      rotationHz: hole.rotationHz,
    };
  });
}
