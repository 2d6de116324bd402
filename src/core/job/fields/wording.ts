/** A field for words or for a day, declared once: page and schema read its name and its bounds from this. */
import { z } from 'zod';

export interface Wording {
  readonly label: string;
  /** letters */
  readonly most: number;
  /** what is meant, at most eight words */
  readonly help?: string;
  /** several lines */
  readonly lines?: true;
}

/** Fields by name. */
export type Wordings<Name extends string = string> = Readonly<Record<Name, Wording>>;

/** letters of a name or of a reason */
export const MOST_LINE = 200;

export const wordsWithin = ({ most }: Wording) => z.string().max(most);

/** A day of the calendar, 2027-03-01. */
export interface DayField {
  readonly label: string;
  readonly min: string;
  readonly max: string;
}

/** Why something is set aside. */
export const asideWording: Wording = { label: 'Why it is set aside', most: MOST_LINE };

/** Of the job itself, by the path that each is kept under. */
export const headWordings = {
  title: { label: 'Job', most: MOST_LINE },
  customer: { label: 'Owner', most: MOST_LINE },
  notes: { label: 'Notes of the job', most: 20_000, lines: true },
  'deck.name': { label: 'Deck', most: MOST_LINE, help: 'Its name in all its jobs' },
  'deck.description': { label: 'About the deck', most: 5000, lines: true },
} as const satisfies Wordings;
