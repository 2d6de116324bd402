/**
 * What may be written down of each kind of part: the one table from which schemas, CSV columns and forms are made.
 *
 * A field's name ends in its unit. Every field is optional: a person keeps what is known, and what is missing
 * withholds what needs it. Bounds are there to catch slips of the keyboard, not to judge a part.
 */

import { type BenchFigure, benchBounds } from '../units/benchBounds.ts';
import { type Field, fieldOf } from './fields/field.ts';
import { MOST_LINE, type Wording, type Wordings } from './fields/wording.ts';

export interface NumberField extends Field {
  readonly type: 'number';
}

export interface ChoiceField<Option extends string = string> {
  readonly type: 'choice';
  readonly label: string;
  readonly options: readonly Option[];
  readonly help?: string;
}

export interface TextField extends Wording {
  readonly type: 'text';
}

/** A response against frequency, kept as the text of its CSV (measure/responseCsv.ts). */
export interface ResponseField {
  readonly type: 'response';
  readonly label: string;
  readonly help: string;
}

/** Of every part, and the most of a fact in words. */
export const partWordings = {
  name: { label: 'Name', most: MOST_LINE },
  note: { label: 'Note', most: 20_000, lines: true },
} as const satisfies Wordings;
const MOST_FACT = 2000;

export type PartField = NumberField | ChoiceField | TextField | ResponseField;

const number = (label: string, unit: string, min: number, max: number, help?: string): NumberField => ({
  type: 'number',
  ...fieldOf(label, { unit, min, max }, help),
});
/** With the bounds that the figure has everywhere. */
const bench = (label: string, name: BenchFigure, help?: string): NumberField => ({
  type: 'number',
  ...fieldOf(label, benchBounds[name], help),
});
const choice = <const Option extends string>(label: string, options: readonly Option[], help?: string) =>
  ({ type: 'choice', label, options, ...(help === undefined ? {} : { help }) }) as ChoiceField<Option>;
const text = (label: string, help?: string): TextField => ({
  type: 'text',
  label,
  most: MOST_FACT,
  ...(help === undefined ? {} : { help }),
});

export const partFields = {
  deck: {
    spindleToPivotMm: bench('Spindle to arm pivot', 'spindleToPivotMm', 'centre to centre, measured or as stated'),
    drive: choice('Drive', ['belt', 'direct', 'idler']),
    speeds: text('Speeds', 'as marked, for example 33⅓, 45'),
    mainsHz: choice('Mains', ['50', '60']),
    matThicknessMm: number('Mat thickness', 'mm', 0, 20),
  },
  arm: {
    effectiveMassG: bench('Effective mass', 'effectiveMassG', 'without cartridge and hardware'),
    effectiveMassLateralG: bench('Effective mass, lateral', 'effectiveMassLateralG', 'only where it differs'),
    effectiveMassIncludes: choice('Effective mass is quoted', ['bare', 'with-headshell']),
    effectiveLengthMm: bench('Effective length', 'effectiveLengthMm', 'pivot to stylus'),
    spindleToPivotMm: bench('Spindle to pivot', 'spindleToPivotMm'),
    overhangMm: bench('Overhang', 'overhangMm', 'negative for an underhung arm'),
    offsetDeg: bench('Offset angle', 'offsetDeg'),
    bearingSquareTo: choice('Vertical bearing square to', ['arm-line', 'cartridge']),
    headshell: choice('Headshell', ['fixed', 'removable']),
    armMomentGMm: bench(
      'Arm’s own moment',
      'armMomentGMm',
      'without cartridge, hardware, weight; front-heavy positive',
    ),
    counterweightMassG: bench('Counterweight mass', 'counterweightMassG'),
    stubFromMm: bench('Counterweight nearest', 'stubFromMm', 'pivot to the weight’s centre, nearest'),
    stubToMm: bench('Counterweight farthest', 'stubToMm', 'pivot to the weight’s centre, farthest'),
    threadPitchMm: bench('Counterweight thread', 'threadPitchMm', 'travel for one turn'),
    dialPerTurnMn: bench('Dial, one turn', 'dialPerTurnMn', 'force that one turn means'),
    cartridgeMassMinG: bench('Lightest cartridge', 'cartridgeMassMinG', 'with hardware, as the maker states'),
    cartridgeMassMaxG: bench('Heaviest cartridge', 'cartridgeMassMaxG', 'with hardware, as the maker states'),
    movingMassG: bench('Whole moving mass', 'movingMassG', 'arm with counterweight, cartridge and hardware'),
    centreBelowPivotMm: bench('Centre of gravity below the pivot', 'centreBelowPivotMm', 'above the pivot negative'),
    pivotAboveTipMm: bench('Pivot above the stylus tip', 'pivotAboveTipMm', 'arm level, stylus on the record'),
    antiSkating: choice('Anti-skating', ['none', 'thread-and-weight', 'lever', 'spring-dial', 'magnetic-dial']),
    antiSkatingWeightG: bench('Anti-skating weight', 'antiSkatingWeightG'),
    antiSkatingLeverMm: bench('Anti-skating lever', 'antiSkatingLeverMm', 'pivot to where the thread or lever acts'),
  },
  cartridge: {
    principle: choice('Principle', ['moving-magnet', 'moving-iron', 'moving-coil']),
    massG: bench('Mass', 'cartridgeMassG'),
    complianceUmPerMn: bench('Compliance', 'complianceUmPerMn', '1 µm/mN = 10⁻⁶ cm/dyn'),
    complianceAt: choice('Compliance quoted', ['static', '10hz', '100hz']),
    complianceLateralUmPerMn: bench(
      'Compliance, lateral',
      'complianceLateralUmPerMn',
      'only where it differs; quoted the same way',
    ),
    trackingForceMinMn: bench('Tracking force from', 'trackingForceMinMn'),
    trackingForceMaxMn: bench('Tracking force to', 'trackingForceMaxMn'),
    trackingForceRecommendedMn: bench('Tracking force recommended', 'trackingForceRecommendedMn'),
    outputMv: bench('Output', 'outputMv', 'rms, at 1 kHz, at the velocity below'),
    outputAtCmS: number('Output quoted at', 'cm/s', 0.1, 20),
    outputVelocityIs: choice('That velocity is', ['peak', 'rms']),
    coilResistanceOhm: bench('Coil resistance', 'coilResistanceOhm', 'one channel, direct current'),
    coilInductanceMh: bench('Coil inductance', 'coilInductanceMh', 'one channel, at 1 kHz'),
    loadResistanceOhm: bench('Load the maker asks for', 'wantedLoadOhm'),
    loadCapacitanceMinPf: bench('Capacitance the maker asks for, from', 'wantedCapacitanceMinPf'),
    loadCapacitanceMaxPf: bench('Capacitance the maker asks for, to', 'wantedCapacitanceMaxPf'),
    verticalAngleDeg: bench('Vertical tracking angle', 'verticalAngleDeg', 'as the maker states it, arm level'),
    mounting: choice('Mounting', ['through-holes', 'tapped']),
    flangeThicknessMm: bench('Flange thickness', 'flangeThicknessMm', 'what the screw passes, for through-holes'),
    tapDepthMm: bench('Thread depth', 'tapDepthMm', 'for tapped bodies'),
    bodyHeightMm: number('Height, mount to tip', 'mm', 5, 40),
    tip: text('Tip', 'shape and radii as stated'),
    tipLifeH: number('Tip life', 'h', 10, 10000, 'as the maker states it'),
  },
  preamp: {
    input: choice('Input', ['moving-magnet', 'moving-coil']),
    gainDb: bench('Gain', 'gainDb', 'at 1 kHz'),
    maxOutputV: bench('Overload', 'maxOutputV', 'largest output, rms, at 1 kHz'),
    inputResistanceOhm: bench('Input resistance', 'loadResistanceOhm'),
    inputCapacitancePf: bench('Input capacitance', 'loadCapacitancePf'),
    inputNoiseNvPerRootHz: bench('Input noise voltage', 'inputNoiseNvPerRootHz'),
    inputNoisePaPerRootHz: bench('Input noise current', 'inputNoisePaPerRootHz'),
    stepUpRatio: bench('Step-up', 'stepUp', 'turns ratio before the input; 1: none'),
    responseCsv: {
      type: 'response',
      label: 'Response as measured',
      help: 'CSV: frequency_hz and db (or left_db, right_db)',
    },
    converterFullScaleV: bench('Converter’s full scale', 'converterFullScaleV', 'rms of the sine that just fills it'),
  },
  cable: {
    capacitancePf: number('Capacitance', 'pF', 0, 10000, 'one channel, with the arm’s wiring'),
    capacitancePfPerM: number('Capacitance for a metre', 'pF/m', 0, 2000),
    lengthM: number('Length', 'm', 0.05, 50),
    resistanceOhm: number('Resistance', 'Ω', 0, 100, 'one channel, there and back'),
  },
  headshell: {
    massG: bench('Mass', 'headshellMassG'),
    thicknessMm: bench('Thickness at the slots', 'headshellThicknessMm'),
    mounting: choice('Holes', ['slots', 'tapped']),
    material: text('Material'),
  },
  counterweight: {
    massG: bench('Mass', 'counterweightMassG'),
    fromMm: bench('Nearest position', 'stubFromMm', 'pivot to the weight’s centre'),
    toMm: bench('Farthest position', 'stubToMm', 'pivot to the weight’s centre'),
  },
  hardware: {
    massG: bench('Mass of the set', 'hardwareMassG', 'screws, nuts, washers and spacer together'),
    screwLengthMm: bench('Screw length', 'screwLengthMm', 'under the head'),
    spacerThicknessMm: bench('Spacer', 'spacerThicknessMm'),
    washerThicknessMm: bench('Washer', 'washerThicknessMm'),
    nutThicknessMm: bench('Nut', 'nutThicknessMm'),
    threadPitchMm: bench('Thread pitch', 'screwPitchMm'),
    material: text('Material'),
  },
} as const satisfies Record<string, Record<string, PartField>>;

export type PartKind = keyof typeof partFields;
export const partKinds = Object.keys(partFields) as readonly PartKind[];

/** The fields of a kind, as a plain map for loops. */
export const fieldsOf = (kind: PartKind): Readonly<Record<string, PartField>> => partFields[kind];
