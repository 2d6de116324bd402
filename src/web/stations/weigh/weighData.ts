/** What Weigh keeps with the job, as it was typed, and the bounds of its fields. */
import type { TypedFacts } from './facts.ts';
import type { ForceUnit } from './force.ts';

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
  forReport: readonly { label: string; text: string }[];
}

export const emptyMass: MassRow = { mass: '', within: '', reading: '' };

export const GAUGE = { unit: 'g', min: 0.2, max: 20 };
export const GAUGE_HEIGHT = { unit: 'mm', min: -20, max: 50 };
export const DIGIT = { unit: 'g', min: 0.0001, max: 0.5 };
export const USUAL_DIGIT_G = 0.01;
export const MASS = { unit: 'g', min: 0.1, max: 100 };
export const MASS_WITHIN = { unit: 'g', min: 0, max: 1 };
export const MASS_READING = { unit: 'g', min: 0.05, max: 110 };
export const TEMPERATURE = { unit: '°C', min: -20, max: 60 };
export const FLOATS_AT = { unit: 'mm', min: 1, max: 300 };
export const FRICTION_BOUNDS = { unit: '', min: 0.05, max: 1 };
export const RADIUS = { unit: 'mm', min: 20, max: 200 };
export const LEVER = { unit: 'mm', min: 1, max: 100 };
export const WEIGHT = { unit: 'g', min: 0.05, max: 50 };
