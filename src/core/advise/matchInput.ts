/** What Match is told: plain specification figures, units in the names, everything optional. */
import { type Problem, withheld } from '../capture/problem.ts';
import type { Curve } from '../measure/finding.ts';
import type { ComplianceBasis } from '../mechanics/compliance.ts';
import { within } from '../units/bounds.ts';
import { plain } from '../words/statement.ts';
import type { Advice, JudgedFinding } from './document.ts';

/** What is missing withholds what needs it. */
export interface MatchInput {
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

const bound = (says: string, unit: string, low: number, high: number): Bound => ({ says, unit, low, high });

export type MatchFigure = Exclude<keyof MatchInput, 'complianceAt' | 'principle' | 'effectiveMassIs'>;

export const matchFigures: Readonly<Record<MatchFigure, Bound>> = {
  effectiveMassG: bound('the arm’s effective mass', 'g', 0.5, 300),
  effectiveMassLateralG: bound('the arm’s lateral effective mass', 'g', 0.5, 300),
  headshellMassG: bound('the headshell’s mass', 'g', 0, 100),
  cartridgeMassG: bound('the cartridge’s mass', 'g', 0.1, 100),
  hardwareMassG: bound('the hardware’s mass', 'g', 0, 50),
  complianceUmPerMn: bound('the compliance', 'µm/mN', 0.5, 120),
  complianceLateralUmPerMn: bound('the lateral compliance', 'µm/mN', 0.5, 120),
  trackingForceMn: bound('the tracking force', 'mN', 0.1, 200),
  trackingForceMinMn: bound('the least tracking force', 'mN', 0.1, 200),
  trackingForceMaxMn: bound('the largest tracking force', 'mN', 0.1, 200),
  trackingForceRecommendedMn: bound('the recommended tracking force', 'mN', 0.1, 200),
  effectiveLengthMm: bound('the effective length', 'mm', 50, 1000),
  spindleToPivotMm: bound('the distance from spindle to pivot', 'mm', 50, 1000),
  grooveInnerMm: bound('the inner groove radius', 'mm', 20, 200),
  grooveOuterMm: bound('the outer groove radius', 'mm', 20, 200),
  friction: bound('the friction', '', 0, 1),
  counterweightMassG: bound('the counterweight’s mass', 'g', 0.5, 2000),
  armMomentGMm: bound('the arm’s own moment', 'g·mm', -100000, 100000),
  stubFromMm: bound('the counterweight’s nearest place', 'mm', 0, 400),
  stubToMm: bound('the counterweight’s farthest place', 'mm', 0, 400),
  cartridgeMassMinG: bound('the lightest cartridge of the arm', 'g', 0, 100),
  cartridgeMassMaxG: bound('the heaviest cartridge of the arm', 'g', 0, 200),
  coilResistanceOhm: bound('the coil’s resistance', 'Ω', 0.1, 100000),
  coilInductanceMh: bound('the coil’s inductance', 'mH', 0, 10000),
  outputMv: bound('the output', 'mV', 0.001, 1000),
  loadResistanceOhm: bound('the load resistance', 'Ω', 1, 10000000),
  loadCapacitancePf: bound('the load capacitance', 'pF', 0, 1000000),
  wantedCapacitanceMinPf: bound('the least capacitance asked for', 'pF', 0, 1000000),
  wantedCapacitanceMaxPf: bound('the largest capacitance asked for', 'pF', 0, 1000000),
  wantedLoadOhm: bound('the load asked for', 'Ω', 1, 10000000),
  gainDb: bound('the gain', 'dB', 0, 120),
  maxOutputV: bound('the preamp’s overload', 'V', 0.001, 200),
  stepUp: bound('the step-up ratio', '', 1, 100),
  inputNoiseNvPerRootHz: bound('the input’s noise voltage', 'nV/√Hz', 0.01, 1000),
  inputNoisePaPerRootHz: bound('the input’s noise current', 'pA/√Hz', 0, 10000),
  converterFullScaleV: bound('the converter’s full scale', 'V', 0.01, 200),
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
export const withhold = (quantities: readonly string[], why: string): MatchAnswer => ({
  ...emptyAnswer,
  problems: quantities.map((quantity) => withheld(quantity, plain(why))),
});

/** "the cartridge's mass and the compliance are not known"; null when nothing is missing. */
export function missing(input: MatchInput, needed: readonly (MatchFigure | 'complianceAt')[]): string | null {
  const absent = needed.filter((name) => input[name] === undefined);
  if (absent.length === 0) return null;
  const names = absent.map((name) =>
    name === 'complianceAt' ? 'how the compliance is quoted (static, at 10 Hz or at 100 Hz)' : matchFigures[name].says,
  );
  const list = names.length === 1 ? names[0] : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
  return `${list} ${names.length === 1 ? 'is' : 'are'} not known`;
}
