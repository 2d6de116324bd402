/** What Weigh keeps with the job, as it was typed, and the bounds of its fields. */
import { benchBounds } from '../../../units/benchBounds.ts';
import type { TypedFacts } from '../../fields/benchFacts.ts';
import { type Fields, fieldOf } from '../../fields/field.ts';
import type { ForceUnit } from '../../fields/force.ts';

/** How the force goes with height: from the arm's balance, from two readings, or not known. */
export type EffectKind = 'arm' | 'two-readings' | 'unknown';

export interface GaugeTyped {
  /** g, as the gauge shows it */
  reading?: string;
  /** mm that the tip on the gauge stands above its place on the record */
  height?: string;
  /** last digit, g */
  digit?: string;
  effect?: EffectKind;
  secondReading?: string;
  secondHeight?: string;
}

/** A known mass laid on the gauge. */
export interface MassRow {
  readonly mass: string;
  /** of the mass, k = 2 */
  readonly within: string;
  readonly reading: string;
}

export type Device = 'thread' | 'notched-lever' | 'dial' | 'none';

export interface SkatingTyped {
  friction?: string;
  inner?: string;
  outer?: string;
  device?: Device;
  lever?: string;
  weight?: string;
  notches?: string;
  dialFriction?: string;
}

/** The force as it was left. */
export interface ForceSet {
  /** ISO time */
  readonly at: string;
  readonly by: 'gauge' | 'dial';
  readonly mn: number;
  /** k = 2; null where the dial alone says it */
  readonly uncertaintyMn: number | null;
  readonly targetMn: number;
  readonly dialMn: number | null;
  /** the gauge had been held against known masses */
  readonly calibrated: boolean;
  /** weighed again and left as it was: nothing was moved */
  readonly left: boolean;
}

export interface SkatingSet {
  /** ISO time */
  readonly at: string;
  readonly says: string;
}

export interface WeighData {
  forceUnit: ForceUnit;
  facts: TypedFacts;
  /** mm behind the pivot at which the counterweight's centre floats this arm */
  floatsAt: string;
  /** ids of core/advise/orderOfWork */
  ticked: readonly string[];
  temperature: string;
  target: string;
  gauge: GaugeTyped;
  masses: readonly MassRow[];
  dial: string;
  /** what had made the station stale when the reading was typed; another reason since then makes the reading old */
  readUnder: string;
  /** what was moved at this station since the force was set, as its reason to weigh again; null where nothing was */
  movedHere: string | null;
  skating: SkatingTyped;
  /** oldest first */
  sets: readonly ForceSet[];
  skatingSet: SkatingSet | null;
}

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
  dial: fieldOf('Dial shows', benchBounds.tipForceMn, 'The mark that the ring stands at'),
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
