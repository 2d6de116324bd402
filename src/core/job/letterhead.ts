/** Whose report it is: the shop's name, address line and logo, as the head of every report shows them. */
import { z } from 'zod';
import type { Wording, Wordings } from './fields/wording.ts';

/** letters of a data address: some 150 kB of picture, as a report holds it whole */
export const MOST_LOGO = 200_000;

const PNG = /^data:image\/png;base64,iVBORw0KGgo[A-Za-z0-9+/]+={0,2}$/;
const SVG = /^data:image\/svg\+xml;base64,[A-Za-z0-9+/]+={0,2}$/;

export const letterheadWordings = {
  name: { label: 'Shop’s name', most: 80 },
  address: { label: 'Shop’s address line', most: 160 },
} as const satisfies Wordings;

const line = ({ most }: Wording) => z.string().trim().max(most);

export const letterheadSchema = z.strictObject({
  name: line(letterheadWordings.name).default(''),
  address: line(letterheadWordings.address).default(''),
  /** a data address of a small PNG or SVG; a picture runs no script and fetches nothing */
  logo: z
    .string()
    .max(MOST_LOGO, { error: 'a picture of at most 150 kB was expected' })
    .refine((text) => PNG.test(text) || SVG.test(text), { error: 'a PNG or SVG picture was expected' })
    .nullable()
    .default(null),
});
export type Letterhead = z.infer<typeof letterheadSchema>;

export const noLetterhead: Letterhead = { name: '', address: '', logo: null };
