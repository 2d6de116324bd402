/**
 * What one station keeps, and what can be read out of it. Only what a person typed, ticked or did is kept; whatever
 * follows from it is worked out each time it is read.
 */

import { z } from 'zod';
import { time } from '../api/primitives.ts';
import type { CaptureEntry, StationData } from '../api.ts';
import type { Fitting } from '../epochs.ts';
import { type Chosen, valuesOf } from '../fields/chosen.ts';
import type { Declared } from '../fields/declared.ts';
import type { Fields } from '../fields/field.ts';
import { type Wording, wordsWithin } from '../fields/wording.ts';
import type { LeafPath } from '../leafPaths.ts';
import type { ReportLine } from '../reportLines.ts';
import type { Shop } from '../shop.ts';
import type { StationTyped } from './stationTyped.ts';

/** Everything that was typed in a job, station by station, and what was heard: what a line of the report may rest on. */
export interface JobTyped {
  readonly stations: StationTyped;
  readonly practice: boolean;
  readonly fittings: readonly Fitting[];
  /** what the shop has set for all its jobs */
  readonly shop: Shop;
  /** oldest first, those that do not count among them (`recordings.ts`) */
  readonly captures: readonly CaptureEntry[];
}

export interface StationModel<Typed extends object> {
  /** What may be kept: every key optional, texts and lists bounded, other keys refused. */
  readonly schema: z.ZodType<Typed>;
  /**
   * Values that are replaced whole, never key by key, because their parts mean nothing apart (a part that was picked).
   * `*` stands for any one key. Lists are always whole.
   */
  readonly wholes?: readonly LeafPath[];
  /** The lines that stand in the report, worked out from what was typed. */
  lines(typed: Typed, job: JobTyped): readonly ReportLine[];
  /** What an earlier version wrote, under today's keys and without what is worked out now. */
  fromOlder(data: StationData): StationData;
  /** What a person calls each field, by the path that it is kept under. */
  readonly fields: Declared;
}

type DeepReadonly<T> = T extends readonly (infer Row)[]
  ? readonly DeepReadonly<Row>[]
  : T extends object
    ? { readonly [Key in keyof T]: DeepReadonly<T[Key]> }
    : T;

/** What a schema keeps, for readers that change nothing. */
export type TypedBy<Schema extends z.ZodType> = DeepReadonly<z.infer<Schema>>;

/** One field as it was typed: a number with or without its unit, a name. */
export const fieldText = z.string().max(200);
/** Sentences of a person. */
export const notesWording: Wording = { label: 'Notes', most: 10_000, help: 'Printed in the report', lines: true };
/** When something was done. */
export const doneAt = time;
/** Most rows of any list. */
export const MOST_ROWS = 500;

/** Most exchanges of which a station keeps what was typed before. */
export const MOST_EARLIER = 50;
const key = z.string().min(1).max(100);

/** What was typed for a part that is no longer on the deck: no answer rests on it. */
const earlierSchema = z.strictObject({
  /** id of the fitting that ended it */
  fitting: z.string().max(64),
  /** what it was typed for, as it is called; '' where nobody said */
  name: z.string().max(200),
  kept: z
    .array(z.strictObject({ path: z.array(key).min(1).max(6), is: z.union([fieldText, z.array(key).max(MOST_ROWS)]) }))
    .max(200),
});
export type EarlierTyped = TypedBy<typeof earlierSchema>;

/** Keys of every station. */
export const ofEveryStation = {
  notes: wordsWithin(notesWording).optional(),
  earlier: z.array(earlierSchema).max(MOST_EARLIER).optional(),
};

/** `data` without keys that earlier versions kept though they follow from the others. */
export const without =
  (...names: readonly string[]) =>
  (data: StationData): StationData =>
    Object.fromEntries(Object.entries(data).filter(([name]) => !names.includes(name)));

/** One of the values that are declared; `others` too. */
export const oneOf = <Value extends string, Other extends string = never>(
  choice: Chosen<Value>,
  ...others: readonly Other[]
) => z.enum([...others, ...valuesOf(choice)]);

export const namesOf = <Name extends string>(fields: Fields<Name>): readonly Name[] => Object.keys(fields) as Name[];

/** `{a?: S, b?: S}` for a list of names. */
export const each = <const Name extends string, Schema extends z.ZodType>(names: readonly Name[], schema: Schema) =>
  z.strictObject(
    Object.fromEntries(names.map((name) => [name, schema.optional()])) as Record<Name, z.ZodOptional<Schema>>,
  );
