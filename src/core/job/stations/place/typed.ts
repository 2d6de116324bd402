/** What is typed at Place, kept with the job as it was typed (`../place.ts`), and the bounds of every field. */
import type { PlaceTyped } from '../place.ts';

export type ArmTyped = NonNullable<PlaceTyped['arm']>;
export type ReadTyped = NonNullable<PlaceTyped['read']>;
export type SheetTyped = NonNullable<PlaceTyped['sheet']>;
/** One drawn point as it was read. */
export type PointTyped = NonNullable<ReadTyped['inner']>;
/** The numbers that a template saved or printed here was drawn for: readings off it refer to these. */
export type DrawnSheet = NonNullable<SheetTyped['drawnArc']>;
export type MadeMove = NonNullable<PlaceTyped['moves']>[number];
/** How an arm stands, or should stand. What was not known is null. */
export type KeptFigures = MadeMove['before'];
/** A figure as it is kept; the uncertainty is k = 2 in the figure's own unit. */
export type Kept = KeptFigures['overhangMm'];

export type Known = NonNullable<ArmTyped['known']>;
export type Movable = NonNullable<ArmTyped['movable']>;
export type Speed = NonNullable<ArmTyped['speed']>;
export type ReadingKind = NonNullable<ReadTyped['kind']>;
export type SheetFor = NonNullable<ReadTyped['sheetFor']>;
export type SheetStyle = NonNullable<SheetTyped['style']>;

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
