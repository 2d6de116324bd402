/**
 * What may be written down of each kind of part: the one table from which schemas, CSV columns and forms are made.
 *
 * A field's name ends in its unit. Every field is optional: a person keeps what is known, and what is missing
 * withholds what needs it. Bounds are there to catch slips of the keyboard, not to judge a part.
 */

export interface NumberField {
  readonly type: 'number';
  readonly label: string;
  /** unit the value is kept in; `''` for a plain number */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** what the figure is quoted for or under, where that changes its meaning */
  readonly help?: string;
}

export interface ChoiceField<Option extends string = string> {
  readonly type: 'choice';
  readonly label: string;
  readonly options: readonly Option[];
  readonly help?: string;
}

export interface TextField {
  readonly type: 'text';
  readonly label: string;
  readonly help?: string;
}

export type PartField = NumberField | ChoiceField | TextField;

const number = (label: string, unit: string, min: number, max: number, help?: string): NumberField => ({
  type: 'number',
  label,
  unit,
  min,
  max,
  ...(help === undefined ? {} : { help }),
});
const choice = <const Option extends string>(label: string, options: readonly Option[], help?: string) =>
  ({ type: 'choice', label, options, ...(help === undefined ? {} : { help }) }) as ChoiceField<Option>;
const text = (label: string, help?: string): TextField => ({
  type: 'text',
  label,
  ...(help === undefined ? {} : { help }),
});

export const partFields = {
  deck: {
    spindleToPivotMm: number(
      'Spindle to arm pivot',
      'mm',
      100,
      500,
      'measured on this deck, or as its maker states it',
    ),
    drive: choice('Drive', ['belt', 'direct', 'idler']),
    speeds: text('Speeds', 'as marked, for example 33⅓, 45'),
    mainsHz: choice('Mains', ['50', '60']),
    matThicknessMm: number('Mat thickness', 'mm', 0, 20),
  },
  arm: {
    effectiveMassG: number('Effective mass', 'g', 0.5, 100, 'without cartridge and hardware'),
    effectiveMassLateralG: number(
      'Effective mass, lateral',
      'g',
      0.5,
      300,
      'only where it differs from the vertical one',
    ),
    effectiveMassIncludes: choice('Effective mass is quoted', ['bare', 'with-headshell']),
    effectiveLengthMm: number('Effective length', 'mm', 100, 500, 'pivot to stylus'),
    spindleToPivotMm: number('Spindle to pivot', 'mm', 100, 500),
    overhangMm: number('Overhang', 'mm', -100, 60, 'negative for an underhung arm'),
    offsetDeg: number('Offset angle', 'deg', 0, 40),
    headshell: choice('Headshell', ['fixed', 'removable']),
    armMomentGMm: number(
      'Arm’s own moment',
      'g·mm',
      -50000,
      50000,
      'about the pivot, of the arm without cartridge, hardware and counterweight, and without the headshell where its effective mass is quoted so; front-heavy positive',
    ),
    counterweightMassG: number('Counterweight mass', 'g', 1, 1000),
    stubFromMm: number('Counterweight nearest', 'mm', 0, 300, 'pivot to the weight’s centre, as near as it goes'),
    stubToMm: number('Counterweight farthest', 'mm', 0, 300, 'pivot to the weight’s centre, as far as it holds'),
    threadPitchMm: number('Counterweight thread', 'mm', 0.1, 20, 'travel for one turn'),
    dialPerTurnMn: number('Dial, one turn', 'mN', 0.1, 100, 'tracking force that one turn of the ring stands for'),
    cartridgeMassMinG: number('Lightest cartridge', 'g', 0, 60, 'with hardware, as the arm’s maker states it'),
    cartridgeMassMaxG: number('Heaviest cartridge', 'g', 0, 100, 'with hardware, as the arm’s maker states it'),
    movingMassG: number('Whole moving mass', 'g', 10, 2000, 'arm with counterweight, cartridge and hardware'),
    centreBelowPivotMm: number('Centre of gravity below the pivot', 'mm', -30, 60, 'above the pivot negative'),
    pivotAboveTipMm: number('Pivot above the stylus tip', 'mm', -30, 80, 'arm level, stylus on the record'),
    antiSkating: choice('Anti-skating', ['none', 'thread-and-weight', 'lever', 'spring-dial', 'magnetic-dial']),
    antiSkatingWeightG: number('Anti-skating weight', 'g', 0.05, 50),
    antiSkatingLeverMm: number('Anti-skating lever', 'mm', 1, 100, 'pivot to where the thread or lever acts'),
  },
  cartridge: {
    principle: choice('Principle', ['moving-magnet', 'moving-iron', 'moving-coil']),
    massG: number('Mass', 'g', 0.5, 60),
    complianceUmPerMn: number('Compliance', 'µm/mN', 0.5, 120, '1 µm/mN = 10⁻⁶ cm/dyn; say beside it how it is quoted'),
    complianceAt: choice('Compliance quoted', ['static', '10hz', '100hz']),
    complianceLateralUmPerMn: number(
      'Compliance, lateral',
      'µm/mN',
      0.5,
      120,
      'only where it differs; quoted the same way',
    ),
    trackingForceMinMn: number('Tracking force from', 'mN', 1, 150),
    trackingForceMaxMn: number('Tracking force to', 'mN', 1, 150),
    trackingForceRecommendedMn: number('Tracking force recommended', 'mN', 1, 150),
    outputMv: number('Output', 'mV', 0.01, 100, 'rms, at 1 kHz, at the velocity below'),
    outputAtCmS: number('Output quoted at', 'cm/s', 0.1, 20),
    outputVelocityIs: choice('That velocity is', ['peak', 'rms']),
    coilResistanceOhm: number('Coil resistance', 'Ω', 0.1, 10000, 'one channel, direct current'),
    coilInductanceMh: number('Coil inductance', 'mH', 0, 3000, 'one channel, at 1 kHz'),
    loadResistanceOhm: number('Load the maker asks for', 'Ω', 1, 1000000),
    loadCapacitanceMinPf: number('Capacitance the maker asks for, from', 'pF', 0, 100000),
    loadCapacitanceMaxPf: number('Capacitance the maker asks for, to', 'pF', 0, 100000),
    verticalAngleDeg: number('Vertical tracking angle', 'deg', 0, 45, 'as the maker states it, arm level'),
    mounting: choice('Mounting', ['through-holes', 'tapped']),
    flangeThicknessMm: number('Flange thickness', 'mm', 0.3, 20, 'what the screw passes through, for through-holes'),
    tapDepthMm: number('Thread depth', 'mm', 0.5, 20, 'for tapped bodies'),
    bodyHeightMm: number('Height, mount to tip', 'mm', 5, 40),
    tip: text('Tip', 'shape and radii as stated'),
    tipLifeH: number('Tip life', 'h', 10, 10000, 'as the maker states it'),
  },
  preamp: {
    input: choice('Input', ['moving-magnet', 'moving-coil']),
    gainDb: number('Gain', 'dB', 0, 100, 'at 1 kHz'),
    maxOutputV: number('Overload', 'V', 0.1, 50, 'largest output, rms, at 1 kHz'),
    inputResistanceOhm: number('Input resistance', 'Ω', 1, 1000000),
    inputCapacitancePf: number('Input capacitance', 'pF', 0, 1000000),
    inputNoiseNvPerRootHz: number('Input noise voltage', 'nV/√Hz', 0.05, 100),
    inputNoisePaPerRootHz: number('Input noise current', 'pA/√Hz', 0, 1000),
    stepUpRatio: number('Step-up', '', 1, 100, 'turns ratio of the transformer before the input, 1 for none'),
    converterFullScaleV: number(
      'Converter’s full scale',
      'V',
      0.1,
      30,
      'rms of the sine that just fills the converter fed by it',
    ),
  },
  cable: {
    capacitancePf: number('Capacitance', 'pF', 0, 10000, 'one channel, whole cable with the arm’s wiring'),
    capacitancePfPerM: number('Capacitance for a metre', 'pF/m', 0, 2000),
    lengthM: number('Length', 'm', 0.05, 50),
    resistanceOhm: number('Resistance', 'Ω', 0, 100, 'one channel, there and back'),
  },
  headshell: {
    massG: number('Mass', 'g', 1, 60),
    thicknessMm: number('Thickness at the slots', 'mm', 0.3, 20),
    mounting: choice('Holes', ['slots', 'tapped']),
    material: text('Material'),
  },
  counterweight: {
    massG: number('Mass', 'g', 1, 1000),
    fromMm: number('Nearest position', 'mm', 0, 300, 'pivot to the weight’s centre'),
    toMm: number('Farthest position', 'mm', 0, 300, 'pivot to the weight’s centre'),
  },
  hardware: {
    massG: number('Mass of the set', 'g', 0, 30, 'screws, nuts, washers and spacer together'),
    screwLengthMm: number('Screw length', 'mm', 1, 40, 'under the head'),
    spacerThicknessMm: number('Spacer', 'mm', 0, 20),
    washerThicknessMm: number('Washer', 'mm', 0, 5),
    nutThicknessMm: number('Nut', 'mm', 0, 10),
    threadPitchMm: number('Thread pitch', 'mm', 0.2, 1.5),
    material: text('Material'),
  },
} as const satisfies Record<string, Record<string, PartField>>;

export type PartKind = keyof typeof partFields;
export const partKinds = Object.keys(partFields) as readonly PartKind[];

/** The fields of a kind, as a plain map for loops. */
export const fieldsOf = (kind: PartKind): Readonly<Record<string, PartField>> => partFields[kind];
