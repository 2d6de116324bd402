/** What the second screen is told, by the bench page through the server, and what the bench page is told of it. */
import { z } from 'zod';

const words = (most: number) => z.string().max(most);

/** A figure with its unit and uncertainty, as the bench shows it. */
const shownFigureSchema = z.strictObject({
  title: words(80),
  value: z.number(),
  unit: words(16),
  /** k = 2, in `unit`; null where there is none */
  uncertainty: z.number().min(0).nullable(),
  /** a plus is written too */
  signed: z.boolean(),
});

/** All that ever goes to the second screen. */
export const secondFigureSchema = z.strictObject({
  /** false: nothing is heard, and the rest is empty or what was heard last */
  listening: z.boolean(),
  /** the band that plays, or that the figure is of; empty where none was heard */
  band: words(80),
  figure: shownFigureSchema.nullable(),
  /** deg, clockwise from the cartridge's face positive; null where no turn is advised */
  turnDeg: z.number().nullable(),
  /** what to do now; may be empty */
  says: words(300),
  /** the limit is kept */
  good: z.boolean(),
  /** what else belongs to the figure: one line each */
  notes: z.array(words(300)).max(4),
  /** s since the figure was read; 0 while its band plays */
  ageS: z.number().min(0),
});
export type SecondFigure = z.infer<typeof secondFigureSchema>;

/** Which address of this computer it is offered at; left out: the first one. */
export const secondOnSchema = z.strictObject({ address: words(64).optional() });

export const secondStateSchema = z.union([
  z.object({ on: z.literal(false), why: z.string() }),
  z.object({
    on: z.literal(true),
    /** to open on the second screen, e.g. http://192.168.1.20:4143/ */
    url: z.string(),
    address: z.string(),
    /** all it could be offered at */
    addresses: z.array(z.object({ address: z.string(), name: z.string() })),
    /** null once it was entered */
    code: z.string().nullable(),
    /** s that the code may still be entered */
    codeForS: z.number(),
    /** a path of dark squares of side 1 in a square of `size`, quiet zone included */
    qr: z.object({ size: z.number(), path: z.string() }),
    device: z.enum(['none', 'connected', 'away']),
  }),
]);
export type SecondState = z.infer<typeof secondStateSchema>;

/** What the second screen sends, once. */
export const secondEnterSchema = z.strictObject({ code: words(32) });
