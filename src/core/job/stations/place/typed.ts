/** What is typed at Place, kept with the job as it was typed (`../place.ts`); its fields are declared in `fields.ts`. */
import type { PlaceTyped } from '../place.ts';

export type ArmTyped = NonNullable<PlaceTyped['arm']>;
export type ReadTyped = NonNullable<PlaceTyped['read']>;
export type SheetTyped = NonNullable<PlaceTyped['sheet']>;
/** One drawn point as it was read. */
export type PointTyped = NonNullable<ReadTyped['inner']>;
/** The numbers that a template saved or printed here was drawn for: readings off it refer to these. */
export type DrawnSheet = NonNullable<SheetTyped['drawnArc']>;
export type MadeMove = NonNullable<PlaceTyped['moves']>[number];
export type Known = NonNullable<ArmTyped['known']>;
export type Speed = NonNullable<ArmTyped['speed']>;
export type SheetFor = NonNullable<ReadTyped['sheetFor']>;
export type SheetStyle = NonNullable<SheetTyped['style']>;
