/**
 * What a figure of arm, cartridge, hardware or preamp may be, by name: the one table for parts, stations, page and command
 * line. Bounds catch slips of the keyboard and of the unit; they judge nothing (house rule, from what is built and sold).
 */
export interface BenchBound {
  readonly unit: string;
  readonly min: number;
  readonly max: number;
}

const bound = (unit: string, min: number, max: number): BenchBound => ({ unit, min, max });

export const benchBounds = {
  effectiveMassG: bound('g', 0.5, 300),
  effectiveMassLateralG: bound('g', 0.5, 300),
  headshellMassG: bound('g', 0, 100),
  cartridgeMassG: bound('g', 0.1, 100),
  hardwareMassG: bound('g', 0, 50),
  complianceUmPerMn: bound('µm/mN', 0.5, 120),
  complianceLateralUmPerMn: bound('µm/mN', 0.5, 120),
  trackingForceMn: bound('mN', 1, 150),
  trackingForceMinMn: bound('mN', 1, 150),
  trackingForceMaxMn: bound('mN', 1, 150),
  trackingForceRecommendedMn: bound('mN', 1, 150),
  /** a force that is set: under 0.4 g nothing was ever made to track, so grams typed for millinewtons are caught */
  tipForceMn: bound('mN', 4, 150),
  effectiveLengthMm: bound('mm', 100, 1100),
  spindleToPivotMm: bound('mm', 100, 1000),
  overhangMm: bound('mm', -100, 100),
  offsetDeg: bound('deg', -60, 60),
  verticalAngleDeg: bound('deg', 0, 45),
  grooveRadiusMm: bound('mm', 20, 200),
  grooveInnerMm: bound('mm', 20, 200),
  grooveOuterMm: bound('mm', 20, 200),
  friction: bound('', 0, 1),
  counterweightMassG: bound('g', 0.5, 2000),
  armMomentGMm: bound('g·mm', -100_000, 100_000),
  stubFromMm: bound('mm', 0, 400),
  stubToMm: bound('mm', 0, 400),
  threadPitchMm: bound('mm', 0.1, 20),
  dialPerTurnMn: bound('mN', 0.1, 100),
  cartridgeMassMinG: bound('g', 0, 100),
  cartridgeMassMaxG: bound('g', 0, 200),
  movingMassG: bound('g', 10, 2000),
  centreBelowPivotMm: bound('mm', -30, 60),
  pivotAboveTipMm: bound('mm', -30, 80),
  antiSkatingWeightG: bound('g', 0.05, 50),
  antiSkatingLeverMm: bound('mm', 1, 100),
  coilResistanceOhm: bound('Ω', 0.1, 100_000),
  coilInductanceMh: bound('mH', 0, 10_000),
  outputMv: bound('mV', 0.001, 1000),
  loadResistanceOhm: bound('Ω', 1, 10_000_000),
  loadCapacitancePf: bound('pF', 0, 1_000_000),
  wantedLoadOhm: bound('Ω', 1, 10_000_000),
  wantedCapacitanceMinPf: bound('pF', 0, 1_000_000),
  wantedCapacitanceMaxPf: bound('pF', 0, 1_000_000),
  gainDb: bound('dB', 0, 120),
  maxOutputV: bound('V', 0.001, 200),
  stepUp: bound('', 1, 100),
  inputNoiseNvPerRootHz: bound('nV/√Hz', 0.01, 1000),
  inputNoisePaPerRootHz: bound('pA/√Hz', 0, 10_000),
  converterFullScaleV: bound('V', 0.01, 200),
  headshellThicknessMm: bound('mm', 0, 20),
  spacerThicknessMm: bound('mm', 0, 20),
  washerThicknessMm: bound('mm', 0, 10),
  flangeThicknessMm: bound('mm', 0, 20),
  nutThicknessMm: bound('mm', 0, 20),
  tapDepthMm: bound('mm', 0, 20),
  screwPitchMm: bound('mm', 0.2, 1.5),
  screwLengthMm: bound('mm', 0, 60),
} as const satisfies Record<string, BenchBound>;

export type BenchFigure = keyof typeof benchBounds;
