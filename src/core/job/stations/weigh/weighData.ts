/** The fields of Weigh, and short names for what is kept of them. */
import { benchBounds } from '../../../units/benchBounds.ts';
import { chosen } from '../../fields/chosen.ts';
import { type Fields, fieldOf } from '../../fields/field.ts';
import { MOST_LINE, type Wording } from '../../fields/wording.ts';
import type { WeighTyped } from '../weigh.ts';

type Kept<Name extends keyof WeighTyped> = NonNullable<WeighTyped[Name]>;
export type GaugeTyped = Kept<'gauge'>;
export type EffectKind = NonNullable<GaugeTyped['effect']>;
/** A known mass laid on the gauge. */
export type MassRow = Kept<'masses'>[number];
export type SkatingTyped = Kept<'skating'>;
export type Device = NonNullable<SkatingTyped['device']>;
/** The force as it was left. */
export type ForceSet = Kept<'sets'>[number];
export type SkatingSet = Kept<'skatingSet'>;

export const emptyMass: MassRow = { mass: '', within: '', reading: '' };

export const gaugeFields = {
  reading: { label: 'Gauge shows', unit: 'g', min: 0.2, max: 20, help: 'Zeroed before, arm lowered by its lever' },
  height: {
    label: 'Tip on the gauge, over its place on a record',
    unit: 'mm',
    min: -20,
    max: 50,
    help: 'Empty: at record height. Lower is negative',
  },
  digit: {
    label: 'Gauge’s last digit',
    unit: 'g',
    min: 0.0001,
    max: 0.5,
    usual: { value: 0.01, from: 'usual' },
  },
  secondReading: { label: 'Gauge shows at another height', unit: 'g', min: 0.2, max: 20 },
  secondHeight: { label: 'That height, over the record', unit: 'mm', min: -20, max: 50 },
} as const satisfies Fields<Exclude<keyof GaugeTyped, 'effect'>>;

/** A known mass may bring its own ±: then `within` may stay empty. */
export const massFields = {
  mass: { label: 'Known mass', unit: 'g', min: 0.1, max: 100, spread: true },
  within: { label: 'known to within ±', unit: 'g', min: 0, max: 1 },
  reading: { label: 'Gauge showed', unit: 'g', min: 0.05, max: 110 },
} as const satisfies Fields<keyof MassRow>;

export const forceFields = {
  target: fieldOf('Another force', benchBounds.tipForceMn, 'Only where it differs from the one above'),
  dial: fieldOf('Dial shows', benchBounds.tipForceMn, 'The mark that the ring shows'),
} satisfies Fields<'target' | 'dial'>;

export const weighFields = {
  temperature: {
    label: 'Temperature of room and cartridge',
    unit: '°C',
    min: -20,
    max: 60,
    help: 'Cold or warm changes the suspension',
  },
  floatsAt: {
    label: 'Or: the weight’s centre floats this arm at',
    unit: 'mm',
    min: 1,
    max: 300,
    help: 'Behind the pivot, with this cartridge on',
  },
} as const satisfies Fields<'temperature' | 'floatsAt'>;

export const skatingFields = {
  lever: fieldOf('Thread pulls at', benchBounds.antiSkatingLeverMm, 'Pivot to where the thread pulls square'),
  weight: fieldOf('Weight on the lever', benchBounds.antiSkatingWeightG),
  dialFriction: fieldOf('Friction that the dial was made for', benchBounds.friction),
  friction: fieldOf('Friction of tip and record', benchBounds.friction),
  inner: fieldOf('Innermost groove', benchBounds.grooveInnerMm),
  outer: fieldOf('Outermost groove', benchBounds.grooveOuterMm),
} satisfies Fields<Exclude<keyof SkatingTyped, 'device' | 'notches'>>;

export const notchesWording: Wording = {
  label: 'Notches, mm from the pivot',
  most: MOST_LINE,
  help: 'With spaces between: 8 10 12',
};

export const weighChoices = {
  forceUnit: chosen('A number without a unit is in', { g: 'g', mN: 'mN' }),
  effect: chosen('How the force goes with height', {
    arm: 'from the arm’s balance',
    'two-readings': 'from a second reading',
    unknown: 'not known',
  }),
  device: chosen('Anti-skating on this arm', {
    thread: 'weight on a thread',
    'notched-lever': 'lever with notches',
    dial: 'dial',
    none: 'none',
  }),
};
