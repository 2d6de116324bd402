/** What is typed of arm, cartridge and hardware at Weigh, Height and Place: one declaration for all of them. */
import { type BenchFigure, benchBounds } from '../../units/benchBounds.ts';
import { type Field, fieldOf } from './field.ts';

const fact = (name: BenchFigure, label: string, help?: string): Field => fieldOf(label, benchBounds[name], help);

export const factFields = {
  cartridgeMassG: fact('cartridgeMassG', 'Cartridge’s mass'),
  hardwareMassG: fact('hardwareMassG', 'Mass of screws, nuts, spacer', 'Screws, nuts, washers and spacer together'),
  trackingForceMinMn: fact('trackingForceMinMn', 'Tracking force from'),
  trackingForceMaxMn: fact('trackingForceMaxMn', 'Tracking force to'),
  trackingForceRecommendedMn: fact('trackingForceRecommendedMn', 'Recommended'),
  verticalAngleDeg: fact('verticalAngleDeg', 'Vertical tracking angle', 'As the maker states it, arm level'),
  effectiveLengthMm: { ...fact('effectiveLengthMm', 'Effective length', 'Pivot to stylus'), spread: true },
  spindleToPivotMm: fact('spindleToPivotMm', 'Spindle to pivot', 'Centre to centre, measured on this deck'),
  offsetDeg: fact('offsetDeg', 'Offset angle', 'Cartridge against the line pivot to tip'),
  counterweightMassG: { ...fact('counterweightMassG', 'Counterweight mass'), spread: true },
  threadPitchMm: fact('threadPitchMm', 'Counterweight thread', 'Travel for one turn'),
  dialPerTurnMn: fact('dialPerTurnMn', 'Dial, one turn', 'Force that one turn means'),
  armMomentGMm: fact('armMomentGMm', 'Arm’s own moment', 'Without cartridge, hardware, weight; front-heavy positive'),
  stubFromMm: fact('stubFromMm', 'Counterweight nearest', 'Pivot to the weight’s centre, nearest'),
  stubToMm: fact('stubToMm', 'Counterweight farthest', 'Pivot to the weight’s centre, farthest'),
  movingMassG: fact('movingMassG', 'Whole moving mass', 'Arm, counterweight, cartridge and hardware'),
  centreBelowPivotMm: fact('centreBelowPivotMm', 'Centre of gravity below the pivot', 'Above the pivot negative'),
  pivotAboveTipMm: fact('pivotAboveTipMm', 'Pivot above the stylus tip', 'Arm level, stylus on the record'),
} as const satisfies Readonly<Record<string, Field>>;

export type FactName = keyof typeof factFields;
export const factNames = Object.keys(factFields) as readonly FactName[];
