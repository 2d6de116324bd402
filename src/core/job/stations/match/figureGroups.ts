/** The single figures that may be typed at Match, in the order of a specification sheet. */
import type { MatchFigure } from '../../../advise/matchInput.ts';

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
