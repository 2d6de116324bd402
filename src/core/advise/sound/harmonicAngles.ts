/**
 * The two angles from the second harmonic of plain tones: what is left where no two-tone band is there, and a coarse check where one is.
 *
 *   lateral    Re (q_L + q_R)/2v = tan ε/V + c_s          vertical   Re (q_L − q_R)/2v = −(tan α_play − tan α_cut)/V + c_d
 *
 * The generators' bends c come from the tones of the other axis, from groove speeds that differ, and before either from what generators
 * usually do. Tracing stands in quadrature and drops out. Never from one band: a bend of 1 % reads as 2.7°.
 *
 * @checked test/independent/plainTones.test.ts
 */
import type { PivotedArm } from '../../geometry/arm.ts';
import { errorWithinReach } from '../../geometry/law.ts';
import { budgetOf, type Doubt } from '../../measure/budget.ts';
import type { SecondHarmonic } from '../../measure/secondHarmonic.ts';
import type { SheetCut } from '../../record/sheet.ts';
import { degToRad, radToDeg } from '../../units/units.ts';
import { statement } from '../../words/statement.ts';
import { ASSUMED } from '../budget/defaults.ts';
import { weightedLeastSquares } from '../weightedLeastSquares.ts';
import { doubts } from './doubts.ts';
import { type HeardAngle, USUAL_CUT_DEG } from './heardAngles.ts';

/** s/cm, standard: 1 % at 5 cm/s (k = 2) of both generators alike, half of it of what they differ by; a house guess */
const USUAL_BEND = { sum: 0.001, difference: 0.0005 } as const;

export interface AngleOfTones extends HeardAngle {
  readonly bands: readonly number[];
}

interface Fit {
  /** tangent at the axis, and what the signal and the bends leave of it, standard */
  readonly tangent: number;
  readonly spread: number;
  /** groove speed over velocity, weighted as the tones were: what a relative second harmonic is worth as a tangent */
  readonly perHarmonic: number;
  /** mm, weighted alike */
  readonly radiusMm: number;
}

/**
 * @param own tones of the axis @param other of the other one
 * @param known tangent at a radius that is taken for granted; what is fitted adds to it alike
 */
function fitAngle(
  own: readonly SecondHarmonic[],
  other: readonly SecondHarmonic[],
  part: 'sum' | 'difference',
  sign: number,
  known: (radiusMm: number) => number,
): Fit | null {
  const spreadOf = (tone: SecondHarmonic): number => tone.spread / tone.velocity;
  const value = (tone: SecondHarmonic): number => (sign * tone[part].re) / tone.velocity;
  const rows = [
    ...own.map((t) => ({ row: [1 / t.speed, 1], y: value(t) - known(t.radiusMm) / t.speed, s: spreadOf(t) })),
    ...other.map((t) => ({ row: [0, 1], y: value(t), s: spreadOf(t) })),
    { row: [0, 1], y: 0, s: USUAL_BEND[part] },
  ];
  const fit = weightedLeastSquares(
    rows.map(({ row }) => row),
    rows.map(({ y }) => y),
    rows.map(({ s }) => 1 / (s * s)),
  );
  if (!fit.found) return null;
  const weights = own.map((t) => 1 / (t.speed * spreadOf(t)) ** 2);
  const all = weights.reduce((sum, w) => sum + w, 0);
  const mean = (of: (t: SecondHarmonic) => number): number =>
    own.reduce((sum, t, i) => sum + (weights[i] * of(t)) / all, 0);
  const radiusMm = mean((t) => t.radiusMm);
  const left = rows.reduce(
    (sum, { row, y, s }) => sum + ((y - row[0] * fit.parameters[0] - row[1] * fit.parameters[1]) / s) ** 2,
    0,
  );
  const excess = rows.length > 3 ? Math.max(1, left / (rows.length - 2)) : 1;
  return {
    tangent: fit.parameters[0] + known(radiusMm),
    spread: Math.sqrt(excess * fit.covariance[0][0]),
    perHarmonic: mean((t) => t.speed / t.velocity),
    radiusMm,
  };
}

/** What is doubtful of either, deg, beside the signal. */
function common(heardDeg: number, fit: Fit, cut: SheetCut | undefined, equalisationDb: number): Doubt[] {
  const of = doubts(cut, equalisationDb);
  return [
    { of: statement('cut-velocity'), size: Math.abs(heardDeg) * of.velocity },
    { of: statement('band-radius'), size: (Math.abs(heardDeg) * of.radiusMm) / fit.radiusMm },
    {
      of: ASSUMED.recordSecondHarmonic.of,
      size: radToDeg((ASSUMED.recordSecondHarmonic.size / 100) * fit.perHarmonic),
    },
    { of: statement('equalisation'), size: Math.abs(heardDeg) * of.equalisation },
  ];
}

const angle = (
  tones: readonly SecondHarmonic[],
  value: number,
  fit: Fit,
  perTangent: number,
  doubt: Doubt[],
): AngleOfTones => {
  const own = 2 * fit.spread * perTangent;
  const { total, budget } = budgetOf([{ of: statement('signal'), size: own }, ...doubt], 'deg');
  const bands = tones.map(({ tone }) => tone.band.index).sort((a, b) => a - b);
  return { band: bands[0], bands, radiusMm: fit.radiusMm, value, repeatability: own, uncertainty: total, budget };
};

/** Playback less cutting angle, deg, of vertical tones; null without one. */
export function verticalOfTones(
  tones: readonly SecondHarmonic[],
  sign: 1 | -1,
  cut: SheetCut | undefined,
  equalisationDb: number,
): AngleOfTones | null {
  const own = tones.filter(({ vertical }) => vertical);
  const other = tones.filter(({ vertical }) => !vertical);
  const fit = own.length === 0 ? null : fitAngle(own, other, 'difference', -sign, () => 0);
  if (fit === null) return null;
  const cutDeg = cut?.verticalAngleDeg ?? USUAL_CUT_DEG;
  const play = Math.atan(Math.tan(degToRad(cutDeg)) + fit.tangent);
  const value = radToDeg(play) - cutDeg;
  const doubt = [
    ...common(value, fit, cut, equalisationDb),
    { of: statement('cut-vertical-angle'), size: doubts(cut, equalisationDb).verticalAngle },
  ];
  return angle(own, value, fit, radToDeg(Math.cos(play) ** 2), doubt);
}

/** mm that bands may lie apart where no arm tells how the error goes with the radius */
const ALIKE_MM = 25;
/** of groove speed over velocity: what parts the angle from the generators' bend */
const SPEED_RATIO = 1.3;

/** Tracking error of the tip's path, deg, at the tones' mean radius; null from one band, or where nothing parts it from the bends. */
export function trackingOfTones(
  tones: readonly SecondHarmonic[],
  sign: 1 | -1,
  cut: SheetCut | undefined,
  equalisationDb: number,
  arm: PivotedArm | null,
): AngleOfTones | null {
  const own = tones.filter(({ vertical }) => !vertical);
  const other = tones.filter(({ vertical }) => vertical);
  if (own.length < 2) return null;
  const radii = own.map(({ radiusMm }) => radiusMm);
  const apart = Math.max(...radii) - Math.min(...radii);
  const speeds = own.map(({ speed }) => speed);
  if (other.length === 0 && Math.max(...speeds) / Math.min(...speeds) < SPEED_RATIO) return null;
  if (arm === null && apart > ALIKE_MM) return null;
  const fit = fitAngle(own, other, 'sum', sign, (radiusMm) =>
    arm === null ? 0 : Math.tan(errorWithinReach(arm, radiusMm)),
  );
  if (fit === null) return null;
  const of = doubts(cut, equalisationDb);
  const heard = radToDeg(Math.atan(fit.tangent));
  return angle(own, heard - (cut?.zenithDeg ?? 0), fit, radToDeg(1), [
    ...common(heard, fit, cut, equalisationDb),
    { of: statement('cut-zenith'), size: of.zenith },
    { of: statement('cut-tilt'), size: of.cutTilt * Math.tan(degToRad(of.verticalApart)) },
  ]);
}
