/** What Match is told: plain specification figures, units in the names, everything optional. */
import { type Problem, withheld } from '../capture/problem.ts';
import type { Curve } from '../measure/finding.ts';
import type { ComplianceBasis } from '../mechanics/compliance.ts';
import { type BenchBound, benchBounds } from '../units/benchBounds.ts';
import { within } from '../units/bounds.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { Advice, JudgedFinding } from './document.ts';
import type { Limits } from './limits.ts';

/** What is missing withholds what needs it. */
export interface MatchInput {
  /** that its verdicts go by; the defaults unless given */
  readonly limits?: Limits;
  /** of the arm without cartridge and hardware, g */
  readonly effectiveMassG?: number;
  /** only where it differs */
  readonly effectiveMassLateralG?: number;
  /** `bare`: the effective mass is quoted without the headshell, whose mass is then needed */
  readonly effectiveMassIs?: 'bare' | 'with-headshell';
  /** of a headshell that the effective mass does not hold yet, g */
  readonly headshellMassG?: number;
  readonly cartridgeMassG?: number;
  readonly hardwareMassG?: number;
  readonly complianceUmPerMn?: number;
  /** only where it differs, quoted the same way */
  readonly complianceLateralUmPerMn?: number;
  readonly complianceAt?: ComplianceBasis;

  readonly trackingForceMn?: number;
  readonly trackingForceMinMn?: number;
  readonly trackingForceMaxMn?: number;
  readonly trackingForceRecommendedMn?: number;

  readonly effectiveLengthMm?: number;
  readonly spindleToPivotMm?: number;
  readonly grooveInnerMm?: number;
  readonly grooveOuterMm?: number;
  readonly friction?: number;

  readonly counterweightMassG?: number;
  readonly armMomentGMm?: number;
  readonly stubFromMm?: number;
  readonly stubToMm?: number;
  readonly cartridgeMassMinG?: number;
  readonly cartridgeMassMaxG?: number;

  readonly principle?: 'moving-magnet' | 'moving-iron' | 'moving-coil';
  readonly coilResistanceOhm?: number;
  readonly coilInductanceMh?: number;
  /** rms at 5 cm/s peak, 1 kHz, into its load */
  readonly outputMv?: number;
  readonly loadResistanceOhm?: number;
  /** cable and input together */
  readonly loadCapacitancePf?: number;
  /** what the cartridge's maker asks for, cable and input together */
  readonly wantedCapacitanceMinPf?: number;
  readonly wantedCapacitanceMaxPf?: number;
  readonly wantedLoadOhm?: number;

  readonly gainDb?: number;
  readonly maxOutputV?: number;
  readonly stepUp?: number;
  readonly inputNoiseNvPerRootHz?: number;
  readonly inputNoisePaPerRootHz?: number;
  readonly converterFullScaleV?: number;
}

/** A figure of `MatchInput` that is a number: its name for people, unit and bounds (against slips of the keyboard). */
interface Bound {
  readonly says: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
}

const bound = (says: string, { unit, min, max }: BenchBound): Bound => ({ says, unit, low: min, high: max });

export type MatchFigure = Exclude<keyof MatchInput, 'limits' | 'complianceAt' | 'principle' | 'effectiveMassIs'>;

export const matchFigures: Readonly<Record<MatchFigure, Bound>> = {
  effectiveMassG: bound('the arm’s effective mass', benchBounds.effectiveMassG),
  effectiveMassLateralG: bound('the arm’s lateral effective mass', benchBounds.effectiveMassLateralG),
  headshellMassG: bound('the headshell’s mass', benchBounds.headshellMassG),
  cartridgeMassG: bound('the cartridge’s mass', benchBounds.cartridgeMassG),
  hardwareMassG: bound('the hardware’s mass', benchBounds.hardwareMassG),
  complianceUmPerMn: bound('the compliance', benchBounds.complianceUmPerMn),
  complianceLateralUmPerMn: bound('the lateral compliance', benchBounds.complianceLateralUmPerMn),
  trackingForceMn: bound('the tracking force', benchBounds.trackingForceMn),
  trackingForceMinMn: bound('the least tracking force', benchBounds.trackingForceMinMn),
  trackingForceMaxMn: bound('the largest tracking force', benchBounds.trackingForceMaxMn),
  trackingForceRecommendedMn: bound('the recommended tracking force', benchBounds.trackingForceRecommendedMn),
  effectiveLengthMm: bound('the effective length', benchBounds.effectiveLengthMm),
  spindleToPivotMm: bound('the distance from spindle to pivot', benchBounds.spindleToPivotMm),
  grooveInnerMm: bound('the inner groove radius', benchBounds.grooveInnerMm),
  grooveOuterMm: bound('the outer groove radius', benchBounds.grooveOuterMm),
  friction: bound('the friction', benchBounds.friction),
  counterweightMassG: bound('the counterweight’s mass', benchBounds.counterweightMassG),
  armMomentGMm: bound('the arm’s own moment', benchBounds.armMomentGMm),
  stubFromMm: bound('the counterweight’s nearest place', benchBounds.stubFromMm),
  stubToMm: bound('the counterweight’s farthest place', benchBounds.stubToMm),
  cartridgeMassMinG: bound('the lightest cartridge of the arm', benchBounds.cartridgeMassMinG),
  cartridgeMassMaxG: bound('the heaviest cartridge of the arm', benchBounds.cartridgeMassMaxG),
  coilResistanceOhm: bound('the coil’s resistance', benchBounds.coilResistanceOhm),
  coilInductanceMh: bound('the coil’s inductance', benchBounds.coilInductanceMh),
  outputMv: bound('the output', benchBounds.outputMv),
  loadResistanceOhm: bound('the load resistance', benchBounds.loadResistanceOhm),
  loadCapacitancePf: bound('the load capacitance', benchBounds.loadCapacitancePf),
  wantedCapacitanceMinPf: bound('the least capacitance asked for', benchBounds.wantedCapacitanceMinPf),
  wantedCapacitanceMaxPf: bound('the largest capacitance asked for', benchBounds.wantedCapacitanceMaxPf),
  wantedLoadOhm: bound('the load asked for', benchBounds.wantedLoadOhm),
  gainDb: bound('the gain', benchBounds.gainDb),
  maxOutputV: bound('the preamp’s overload', benchBounds.maxOutputV),
  stepUp: bound('the step-up ratio', benchBounds.stepUp),
  inputNoiseNvPerRootHz: bound('the input’s noise voltage', benchBounds.inputNoiseNvPerRootHz),
  inputNoisePaPerRootHz: bound('the input’s noise current', benchBounds.inputNoisePaPerRootHz),
  converterFullScaleV: bound('the converter’s full scale', benchBounds.converterFullScaleV),
};

const ordered: readonly (readonly [MatchFigure, MatchFigure])[] = [
  ['trackingForceMinMn', 'trackingForceMaxMn'],
  ['grooveInnerMm', 'grooveOuterMm'],
  ['stubFromMm', 'stubToMm'],
  ['cartridgeMassMinG', 'cartridgeMassMaxG'],
  ['wantedCapacitanceMinPf', 'wantedCapacitanceMaxPf'],
];

/**
 * Refuses what cannot be meant.
 * @throws RangeError naming the figure, its value and its bounds, or the two figures that stand in the wrong order
 */
export function checkMatchInput(input: MatchInput): void {
  for (const name of Object.keys(matchFigures) as MatchFigure[]) {
    const value = input[name];
    const { says, unit, low, high } = matchFigures[name];
    if (value !== undefined) within(says, value, low, high, unit);
  }
  for (const [less, more] of ordered) {
    const a = input[less];
    const b = input[more];
    if (a !== undefined && b !== undefined && !(a < b || (a === b && less !== 'grooveInnerMm'))) {
      const { says, unit } = matchFigures[less];
      throw new RangeError(
        `${says} is ${a} ${unit}, over ${matchFigures[more].says} of ${b} ${unit}; the first must be the lower`,
      );
    }
  }
}

/** What one question of Match answers; several are laid together into the document. */
export interface MatchAnswer {
  readonly findings: readonly JudgedFinding[];
  readonly advice: readonly Advice[];
  readonly curves: readonly Curve[];
  readonly problems: readonly Problem[];
}

export const emptyAnswer: MatchAnswer = { findings: [], advice: [], curves: [], problems: [] };

/** Leaves quantities out, saying why. A note, not an error: something was not told, nothing went wrong. */
export const withhold = (quantities: readonly string[], why: Statement): MatchAnswer => ({
  ...emptyAnswer,
  problems: quantities.map((quantity) => withheld(quantity, why)),
});

/** "the cartridge's mass and the compliance are not known"; null when nothing is missing. */
export function missing(input: MatchInput, needed: readonly (MatchFigure | 'complianceAt')[]): Statement | null {
  const absent = needed.filter((name) => input[name] === undefined);
  if (absent.length === 0) return null;
  const names = absent.map((name) =>
    name === 'complianceAt' ? 'how the compliance is quoted (static, at 10 Hz or at 100 Hz)' : matchFigures[name].says,
  );
  const list = names.length === 1 ? names[0] : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
  return statement('not-known', { what: list, count: names.length });
}
