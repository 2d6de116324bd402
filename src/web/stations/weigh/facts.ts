/**
 * What is known of arm and cartridge at Weigh and Height: typed at the station, else typed at the other, else as Fit or
 * Match has it. Figures that are not a force are read with their units, forces also bare in the unit chosen at the station.
 */
import type { MatchInput } from '../../../core/advise/matchInput.ts';
import type { ChosenParts } from '../../../core/job/matchFromParts.ts';
import { type NumberField, partFields } from '../../../core/job/partFields.ts';
import type { PartOf } from '../../../core/job/parts.ts';
import type { MatchReading } from '../../../core/job/stations/match/matchData.ts';
import { type ReadQuantity, readQuantity } from '../../library/quantity.ts';
import type { HardwareFound } from '../fit/fitData.ts';
import { type ForceUnit, readForce } from './force.ts';

/** What other stations know: Match's parts and figures, and the mass of the hardware as Fit found it. */
export interface Elsewhere extends MatchReading {
  readonly hardware: HardwareFound | null;
}

interface Fact {
  readonly field: NumberField;
  of(match: MatchReading): number | undefined;
}

const { arm, cartridge, hardware } = partFields;

export const facts = {
  cartridgeMassG: { field: { ...cartridge.massG, label: 'Cartridge’s mass' }, of: ({ input }) => input.cartridgeMassG },
  hardwareMassG: {
    field: { ...hardware.massG, label: 'Mass of screws, nuts, spacer' },
    of: ({ input }) => input.hardwareMassG,
  },
  trackingForceMinMn: { field: cartridge.trackingForceMinMn, of: ({ input }) => input.trackingForceMinMn },
  trackingForceMaxMn: { field: cartridge.trackingForceMaxMn, of: ({ input }) => input.trackingForceMaxMn },
  trackingForceRecommendedMn: {
    field: { ...cartridge.trackingForceRecommendedMn, label: 'Recommended' },
    of: ({ input }) => input.trackingForceRecommendedMn,
  },
  verticalAngleDeg: { field: cartridge.verticalAngleDeg, of: ({ chosen }) => chosen.cartridge?.verticalAngleDeg },
  effectiveLengthMm: { field: arm.effectiveLengthMm, of: ({ input }) => input.effectiveLengthMm },
  spindleToPivotMm: { field: arm.spindleToPivotMm, of: ({ input }) => input.spindleToPivotMm },
  counterweightMassG: { field: arm.counterweightMassG, of: ({ input }) => input.counterweightMassG },
  threadPitchMm: { field: arm.threadPitchMm, of: ({ chosen }) => chosen.arm?.threadPitchMm },
  dialPerTurnMn: { field: arm.dialPerTurnMn, of: ({ chosen }) => chosen.arm?.dialPerTurnMn },
  armMomentGMm: { field: arm.armMomentGMm, of: ({ input }) => input.armMomentGMm },
  stubFromMm: { field: arm.stubFromMm, of: ({ input }) => input.stubFromMm },
  stubToMm: { field: arm.stubToMm, of: ({ input }) => input.stubToMm },
  movingMassG: { field: arm.movingMassG, of: ({ chosen }) => chosen.arm?.movingMassG },
  centreBelowPivotMm: { field: arm.centreBelowPivotMm, of: ({ chosen }) => chosen.arm?.centreBelowPivotMm },
  pivotAboveTipMm: { field: arm.pivotAboveTipMm, of: ({ chosen }) => chosen.arm?.pivotAboveTipMm },
} as const satisfies Record<string, Fact>;

export type FactName = keyof typeof facts;
export const factNames = Object.keys(facts) as readonly FactName[];
export type TypedFacts = Readonly<Partial<Record<FactName, string>>>;

export interface Known {
  readonly value: number;
  /** "typed here", "typed at Weigh", "Match", "Fit" */
  readonly from: string;
}

/** Texts typed at one station, the strongest first. */
export interface FactLayer {
  readonly typed: TypedFacts;
  readonly forceUnit: ForceUnit;
  readonly from: string;
}

export type Facts = Readonly<Partial<Record<FactName, Known>>>;

export function readFact(name: FactName, text: string | undefined, forceUnit: ForceUnit): ReadQuantity {
  const { field } = facts[name];
  return field.unit === 'mN' ? readForce(text, forceUnit, field) : readQuantity(text, field);
}

function readOne(name: FactName, layers: readonly FactLayer[], elsewhere: Elsewhere): Known | null {
  for (const { typed, forceUnit, from } of layers) {
    const read = readFact(name, typed[name], forceUnit);
    if ('value' in read) return { value: read.value, from };
    // what was typed and cannot be used is left out, not replaced
    if ('wrong' in read) return null;
  }
  if (name === 'hardwareMassG' && elsewhere.hardware !== null) {
    return { value: elsewhere.hardware.massG, from: 'Fit' };
  }
  const value = facts[name].of(elsewhere);
  return value === undefined ? null : { value, from: 'Match' };
}

export function readFacts(layers: readonly FactLayer[], elsewhere: Elsewhere): Facts {
  return Object.fromEntries(
    factNames.flatMap((name) => {
      const known = readOne(name, layers, elsewhere);
      return known === null ? [] : [[name, known]];
    }),
  ) as Facts;
}

/** What stands in a field's place while nothing is typed there. */
export const behind = (name: FactName, layers: readonly FactLayer[], elsewhere: Elsewhere): Known | null =>
  readOne(name, layers.slice(1), elsewhere);

const fields = <const Name extends FactName>(known: Facts, names: readonly Name[]) =>
  Object.fromEntries(
    names.flatMap((name) => {
      const fact = known[name];
      return fact === undefined ? [] : [[name, fact.value]];
    }),
  ) as Partial<Record<Name, number>>;

/** The figures as the adaptors of core/job take them. */
export function partsOf(known: Facts): ChosenParts {
  const part: PartOf<'arm'> = {
    schema: 1,
    kind: 'arm',
    name: 'as known here',
    ...fields(known, ['effectiveLengthMm', 'spindleToPivotMm', 'movingMassG', 'centreBelowPivotMm', 'pivotAboveTipMm']),
  };
  return { arm: part };
}

/** The figures as Match's own functions take them; a figure that was typed and cannot be used is not there. */
export function inputOf(known: Facts, match: MatchReading): MatchInput {
  const { trackingForceMn: _, ...rest } = match.input;
  const kept = Object.fromEntries(Object.entries(rest).filter(([name]) => !(name in facts)));
  return {
    ...kept,
    ...fields(known, [
      'cartridgeMassG',
      'hardwareMassG',
      'trackingForceMinMn',
      'trackingForceMaxMn',
      'trackingForceRecommendedMn',
      'effectiveLengthMm',
      'spindleToPivotMm',
      'counterweightMassG',
      'armMomentGMm',
      'stubFromMm',
      'stubToMm',
    ]),
  };
}
