/** What is typed at Place, kept with the job as it was typed, and the bounds of every field. */
import type { CriterionName } from '../../../geometry/criteria.ts';
import type { MadeMove } from './madeMoves.ts';

export type Known = 'spindle-to-pivot' | 'effective-length' | 'overhang' | 'tangential';
export type Movable = 'both' | 'slide' | 'twist' | 'slots' | 'nothing';
export type Speed = '33' | '45' | '78' | 'own';

export interface ArmTyped {
  known?: Known;
  spindleToPivot?: string;
  effectiveLength?: string;
  overhang?: string;
  movable?: Movable;
  heldOffset?: string;
  heldLength?: string;
  slotsShortest?: string;
  slotsLongest?: string;
  turnLeast?: string;
  turnMost?: string;
  /** of a tangential arm */
  heldOverhang?: string;
  heldTwist?: string;
  /** the pivot stands elsewhere than the maker says */
  elsewhere?: boolean;
  makersPivot?: string;
  makersLength?: string;
  makersOffset?: string;
  /** name of a span, or `own` */
  grooves?: string;
  inner?: string;
  outer?: string;
  criterion?: CriterionName;
  weightInner?: string;
  weightOuter?: string;
  speed?: Speed;
  rpm?: string;
  toleranceOverhang?: string;
  toleranceTwist?: string;
  tolerancePivot?: string;
}

export type ReadingKind = 'miss' | 'twist' | 'square' | 'ruler' | 'stated';
export type SheetFor = 'solved' | 'printed' | 'other';

/** One drawn point as it was read. */
export interface PointTyped {
  radius?: string;
  along?: string;
  across?: string;
  twist?: string;
}

export interface ReadTyped {
  kind?: ReadingKind;
  inner?: PointTyped;
  outer?: PointTyped;
  sheetFor?: SheetFor;
  sheetPivot?: string;
  sheetLength?: string;
  squareFirst?: string;
  squareSecond?: string;
  rulerOverhang?: string;
  /** read beside the ruler, where it was */
  rulerTwist?: string;
  rulerRadius?: string;
  statedLength?: string;
  statedOffset?: string;
  withinMm?: string;
  withinDeg?: string;
  withinPivot?: string;
  slotsForward?: string;
  slotsBack?: string;
  turnLeft?: string;
  tipAhead?: string;
  slotAngle?: string;
}

/** The numbers that a sheet saved or printed here was drawn for: readings off it refer to these. */
export interface DrawnSheet {
  readonly spindleToPivotMm: number;
  readonly effectiveLengthMm: number;
  readonly nullPointsMm: readonly number[];
}

export type SheetStyle = 'two-point' | 'arc';

export interface SheetTyped {
  style?: SheetStyle;
  paper?: 'a4' | 'letter';
  madeAcross?: string;
  madeDown?: string;
  mains?: '50' | '60';
  drawnArc?: DrawnSheet;
  drawnTwoPoint?: DrawnSheet;
}

/** Everything that the page of Place keeps; `forReport` and `notes` are read by others too. */
export interface PlaceData {
  arm: ArmTyped;
  read: ReadTyped;
  sheet: SheetTyped;
  /** oldest first */
  moves: readonly MadeMove[];
  forReport: readonly { label: string; text: string }[];
}

export const PIVOT = { min: 100, max: 1000, unit: 'mm' };
export const LENGTH = { min: 100, max: 1100, unit: 'mm' };
export const OVERHANG = { min: -100, max: 100, unit: 'mm' };
export const OFFSET = { min: -60, max: 60, unit: '°' };
export const RADIUS = { min: 20, max: 200, unit: 'mm' };
export const WEIGHT = { min: 0, max: 1000, unit: '' };
export const RPM = { min: 8, max: 120, unit: 'rpm' };
export const TOLERANCE_OVERHANG = { min: 0, max: 10, unit: 'mm' };
export const TOLERANCE_TWIST = { min: 0, max: 10, unit: '°' };
export const TOLERANCE_PIVOT = { min: 0, max: 20, unit: 'mm' };
export const ALONG = { min: -30, max: 30, unit: 'mm' };
export const ACROSS = { min: -15, max: 15, unit: 'mm' };
export const TWIST = { min: -30, max: 30, unit: '°' };
export const WITHIN_MM = { min: 0.01, max: 10, unit: 'mm' };
export const WITHIN_DEG = { min: 0.01, max: 25, unit: '°' };
export const WITHIN_PIVOT = { min: 0.01, max: 50, unit: 'mm' };
export const SLOT_LEFT = { min: 0, max: 90, unit: 'mm' };
export const TURN_LEFT = { min: 0, max: 30, unit: '°' };
export const TIP_AHEAD = { min: 0, max: 30, unit: 'mm' };
export const SLOT_ANGLE = { min: -60, max: 60, unit: '°' };
export const MADE_OF_100 = { min: 95, max: 105, unit: 'mm' };
