/**
 * Hours belong to the stylus: each stylus with what was noted of it, over all jobs. A cartridge that is fitted brings its own
 * stylus; a deck that comes back is taken to carry the stylus it left with, unless another cartridge is named or the hours
 * went back.
 */
import { z } from 'zod';
import { dayNumber } from '../units/day.ts';
import { csvText } from '../words/csv.ts';
import { beforeNumber } from './api/primitives.ts';

/** What a job says of a stylus, as it was written down. */
export interface StylusFact {
  readonly deck: { readonly id: string; readonly name: string };
  /** number of the job */
  readonly job: number;
  /** ISO time */
  readonly at: string;
  /** `received`: told at Intake of what came with the deck */
  readonly what: 'received' | 'fitted';
  /** cartridge that it belongs to; '' where nobody said */
  readonly cartridge: string;
  /** its own name; '' for the one that came with the cartridge */
  readonly stylus: string;
  readonly hours: number | null;
}

const stylusSchema = z.object({
  deck: z.object({ id: z.string(), name: z.string() }),
  cartridge: z.string(),
  /** '' for the one that came with the cartridge */
  stylus: z.string(),
  /** still on its deck */
  fitted: z.boolean(),
  /** last noted; null where nobody said */
  hours: z.number().nullable(),
  /** oldest first */
  notes: z.array(
    z.object({ job: z.number(), at: z.string(), what: z.enum(['received', 'fitted']), hours: z.number().nullable() }),
  ),
});
export type Stylus = z.infer<typeof stylusSchema>;

export const stylusLedgerSchema = z.object({
  styli: z.array(stylusSchema),
  /** what to ask for those of decks that were here before; left out where there are none */
  next: z.number().optional(),
});
export type StylusLedger = z.infer<typeof stylusLedgerSchema>;

/** What `GET /api/styli` is asked: how many decks, whose newest job has a lower number than `before`. */
export const ledgerQuerySchema = z.object({
  limit: z.coerce.number().int().min(1).max(500).default(100),
  before: beforeNumber,
});

const plain = (name: string): string => name.trim().toLowerCase();
const other = (a: string, b: string): boolean => plain(a) !== '' && plain(b) !== '' && plain(a) !== plain(b);

/** The stylus that left the deck with the last job is the one that comes back. */
const continues = ({ cartridge, hours, notes }: Stylus, fact: StylusFact): boolean =>
  notes.at(-1)?.job === fact.job ||
  !(other(cartridge, fact.cartridge) || (hours !== null && fact.hours !== null && fact.hours < hours));

/** One that was taken off and is fitted again: of the same names, and no fewer hours on it than when it went. */
const again = (one: Stylus, { cartridge, stylus, hours }: StylusFact): boolean =>
  !one.fitted &&
  plain(cartridge) !== '' &&
  plain(one.cartridge) === plain(cartridge) &&
  plain(one.stylus) === plain(stylus) &&
  hours !== null &&
  one.hours !== null &&
  one.hours > 0 &&
  hours >= one.hours;

/** @param facts in any order @returns the last noted first */
export function styliOf(facts: readonly StylusFact[]): readonly Stylus[] {
  const styli: Stylus[] = [];
  const onDeck = new Map<string, number>();
  const inOrder = [...facts].sort((a, b) => a.at.localeCompare(b.at));
  for (const fact of inOrder) {
    const { deck, job, at, what, cartridge, stylus, hours } = fact;
    const note = { job, at, what, hours };
    const there = onDeck.get(deck.id);
    const standing = there === undefined ? undefined : styli[there];
    const place =
      what === 'received' && standing !== undefined && continues(standing, fact)
        ? (there as number)
        : styli.findIndex((one) => what === 'fitted' && again(one, fact));
    if (standing !== undefined && there !== place) styli[there as number] = { ...standing, fitted: false };
    const known = place === -1 ? { deck, cartridge, stylus, hours: null, notes: [] } : styli[place];
    const fresh: Stylus = {
      deck,
      cartridge: known.cartridge === '' ? cartridge : known.cartridge,
      stylus: known.stylus,
      fitted: true,
      hours: hours ?? known.hours,
      notes: [...known.notes, note],
    };
    if (place === -1) styli.push(fresh);
    else styli[place] = fresh;
    onDeck.set(deck.id, place === -1 ? styli.length - 1 : place);
  }
  const newest = ({ notes }: Stylus): string => notes[notes.length - 1].at;
  return styli.sort((a, b) => newest(b).localeCompare(newest(a)));
}

/**
 * Hours a day that a stylus ran between the first and the last of its notes with hours.
 *
 * @returns null where fewer than two notes a day or more apart say
 */
export function hoursADay({ notes }: Pick<Stylus, 'notes'>): number | null {
  const known = notes.filter(({ hours }) => hours !== null);
  const [first, last] = [known[0], known[known.length - 1]];
  if (first === undefined || first.hours === null || last.hours === null) return null;
  const days = dayNumber(last.at) - dayNumber(first.at);
  return days >= 1 && last.hours > first.hours ? (last.hours - first.hours) / days : null;
}

/** One row a note. */
export const stylusLedgerCsv = ({ styli }: Pick<StylusLedger, 'styli'>): string =>
  csvText([
    ['cartridge', 'stylus', 'deck', 'on_the_deck', 'job', 'at', 'noted', 'hours'],
    ...styli.flatMap(({ cartridge, stylus, deck, fitted, notes }) =>
      notes.map(({ job, at, what, hours }) => [
        cartridge,
        stylus,
        deck.name,
        fitted ? 'yes' : 'no',
        job,
        at,
        what,
        hours,
      ]),
    ),
  ]);
