/** The single figures that may be typed at Match, in the order of a specification sheet. */
import type { MatchFigure } from '../../../advise/matchInput.ts';
import { FRICTION } from '../../../advise/matchLimits.ts';
import { USUAL_GROOVES } from '../../../advise/matchSkating.ts';

export interface FigureGroup {
  readonly title: string;
  readonly figures: readonly MatchFigure[];
}

export const figureGroups: readonly FigureGroup[] = [
  {
    title: 'Arm and cartridge',
    figures: [
      'effectiveMassG',
      'headshellMassG',
      'cartridgeMassG',
      'hardwareMassG',
      'complianceUmPerMn',
      'effectiveMassLateralG',
      'complianceLateralUmPerMn',
      'trackingForceMn',
      'trackingForceMinMn',
      'trackingForceMaxMn',
      'effectiveLengthMm',
      'spindleToPivotMm',
    ],
  },
  {
    title: 'Counterweight and what the arm carries',
    figures: ['counterweightMassG', 'armMomentGMm', 'stubFromMm', 'stubToMm', 'cartridgeMassMinG', 'cartridgeMassMaxG'],
  },
  {
    title: 'Coil, cable and load',
    figures: [
      'coilResistanceOhm',
      'coilInductanceMh',
      'outputMv',
      'loadResistanceOhm',
      'loadCapacitancePf',
      'wantedLoadOhm',
      'wantedCapacitanceMinPf',
      'wantedCapacitanceMaxPf',
    ],
  },
  {
    title: 'Gain, headroom, noise',
    figures: [
      'gainDb',
      'stepUp',
      'maxOutputV',
      'converterFullScaleV',
      'inputNoiseNvPerRootHz',
      'inputNoisePaPerRootHz',
    ],
  },
  { title: 'Skating force', figures: ['friction', 'grooveInnerMm', 'grooveOuterMm'] },
];

export const figureLabels: Readonly<Record<MatchFigure, string>> = {
  effectiveMassG: 'Arm’s effective mass',
  effectiveMassLateralG: 'Arm’s effective mass, lateral',
  headshellMassG: 'Headshell’s mass',
  cartridgeMassG: 'Cartridge’s mass',
  hardwareMassG: 'Hardware’s mass',
  complianceUmPerMn: 'Compliance',
  complianceLateralUmPerMn: 'Compliance, lateral',
  trackingForceMn: 'Tracking force',
  trackingForceMinMn: 'Tracking force from',
  trackingForceMaxMn: 'Tracking force to',
  trackingForceRecommendedMn: 'Tracking force recommended',
  effectiveLengthMm: 'Effective length',
  spindleToPivotMm: 'Spindle to pivot',
  grooveInnerMm: 'Innermost groove',
  grooveOuterMm: 'Outermost groove',
  friction: 'Friction',
  counterweightMassG: 'Counterweight’s mass',
  armMomentGMm: 'Arm’s own moment',
  stubFromMm: 'Counterweight nearest',
  stubToMm: 'Counterweight farthest',
  cartridgeMassMinG: 'Lightest cartridge',
  cartridgeMassMaxG: 'Heaviest cartridge',
  coilResistanceOhm: 'Coil resistance',
  coilInductanceMh: 'Coil inductance',
  outputMv: 'Output at 5 cm/s',
  loadResistanceOhm: 'Load resistance',
  loadCapacitancePf: 'Load capacitance, cable and input',
  wantedLoadOhm: 'Load asked for',
  wantedCapacitanceMinPf: 'Capacitance asked for, from',
  wantedCapacitanceMaxPf: 'Capacitance asked for, to',
  gainDb: 'Gain',
  maxOutputV: 'Preamp’s overload',
  stepUp: 'Step-up, 1 to',
  inputNoiseNvPerRootHz: 'Input noise voltage',
  inputNoisePaPerRootHz: 'Input noise current',
  converterFullScaleV: 'Converter’s full scale',
};

/** What a figure is quoted at or under, where that changes its meaning. */
export const figureHelp: Readonly<Partial<Record<MatchFigure, string>>> = {
  effectiveMassG: 'without cartridge and hardware',
  headshellMassG: 'only where the arm is quoted without it',
  effectiveMassLateralG: 'only where it differs',
  complianceLateralUmPerMn: 'only where it differs',
  complianceUmPerMn: '1 µm/mN = 10⁻⁶ cm/dyn',
  trackingForceMn: 'grams may be typed: 1.8 g',
  outputMv: 'rms at 5 cm/s peak, 1 kHz',
  armMomentGMm: 'about the pivot, without cartridge, hardware and weight; front-heavy positive',
  stubFromMm: 'pivot to the weight’s centre',
  stubToMm: 'pivot to the weight’s centre',
  cartridgeMassMinG: 'with hardware, as the arm’s maker states it',
  cartridgeMassMaxG: 'with hardware, as the arm’s maker states it',
  maxOutputV: 'largest output, rms, at 1 kHz',
  converterFullScaleV: 'rms of the sine that just fills it',
  stepUp: 'turns ratio before the input; 1 for none',
  friction: `${FRICTION.usual} is taken when left empty`,
  grooveInnerMm: `${USUAL_GROOVES.innerMm} mm is taken when both are left empty`,
  grooveOuterMm: `${USUAL_GROOVES.outerMm} mm is taken when both are left empty`,
};
