/** Figures of arm and cartridge that Weigh and Height let be typed over what other stations know. */
import { each, fieldText } from './stationModel.ts';

export const factNames = [
  'cartridgeMassG',
  'hardwareMassG',
  'trackingForceMinMn',
  'trackingForceMaxMn',
  'trackingForceRecommendedMn',
  'verticalAngleDeg',
  'effectiveLengthMm',
  'spindleToPivotMm',
  'counterweightMassG',
  'threadPitchMm',
  'dialPerTurnMn',
  'armMomentGMm',
  'stubFromMm',
  'stubToMm',
  'movingMassG',
  'centreBelowPivotMm',
  'pivotAboveTipMm',
] as const;

export const typedFacts = each(factNames, fieldText);
