/** Photographs of a job: where they are taken, how many and how large, and what travels of them. */
import { z } from 'zod';
import { type Wording, wordsWithin } from './fields/wording.ts';
import { type StationName, stationNames } from './station.ts';

/** Stations at which the eyes see what no recording tells. */
export const photographedAt = ['intake', 'fit', 'hand-over'] as const satisfies readonly StationName[];

/** px, the longer side */
export const MOST_SIDE_PX = 1600;
export const MOST_PHOTOGRAPHS = 24;
export const MOST_JPEG_BYTES = 1_500_000;

export const photographSchema = z.object({
  id: z.string(),
  station: z.enum(stationNames),
  at: z.iso.datetime(),
  note: z.string(),
  width: z.number(),
  height: z.number(),
});
/** One photograph without its pixels. */
export type Photograph = z.infer<typeof photographSchema>;

/** Base64 of a JPEG; what is no JPEG is refused when it is read. */
const jpeg = z.base64({ error: 'base64 of a JPEG' }).max(Math.ceil(MOST_JPEG_BYTES / 3) * 4, {
  error: `a JPEG of at most ${MOST_JPEG_BYTES / 1e6} MB`,
});
/** what it shows */
export const photographNote: Wording = { label: 'What it shows', most: 500 };
const note = wordsWithin(photographNote);

export const newPhotographSchema = z.strictObject({
  /** chosen by who sends it, so that a request sent twice is taken once */
  id: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/, { error: 'an id is 1 to 64 letters, digits, - or _' }),
  station: z.enum(photographedAt),
  note: note.default(''),
  jpeg,
});
export type NewPhotograph = z.input<typeof newPhotographSchema>;

export const photographChangeSchema = z.strictObject({ note });
export type PhotographChange = z.infer<typeof photographChangeSchema>;

/** A photograph in the file of a job. */
export const photographInFileSchema = photographSchema.extend({ note, jpeg });
export type PhotographInFile = z.infer<typeof photographInFileSchema>;

export const photographsKeptSchema = z.object({
  photographs: z.array(photographSchema),
  updatedAt: z.iso.datetime(),
});
export type PhotographsKept = z.infer<typeof photographsKeptSchema>;

/** "2 photographs" */
export const countWords = (count: number): string => (count === 1 ? '1 photograph' : `${count} photographs`);
