/** Which decks are due for their next check: by the date of Hand over, or by the hours of the stylus on them. */
import { z } from 'zod';
import { dayNumber, dayText } from '../units/day.ts';
import { csvText } from '../words/csv.ts';
import { hoursADay, type Stylus } from './stylusHours.ts';

/** What the newest job of a deck says of its next check. */
export interface DueFact {
  readonly deck: { readonly id: string; readonly name: string };
  readonly job: { readonly id: string; readonly number: number };
  readonly owner: string;
  /** 2027-03-01; null none */
  readonly date: string | null;
  /** stylus hours; null none */
  readonly hours: number | null;
}

const dueRowSchema = z.object({
  deck: z.object({ id: z.string(), name: z.string() }),
  job: z.object({ id: z.string(), number: z.number() }),
  owner: z.string(),
  date: z.string().nullable(),
  hours: z.number().nullable(),
  /** last noted of the stylus on the deck; null where nobody said */
  stylusHours: z.number().nullable(),
  /** the earlier of `date` and of the day on which the stylus reaches `hours` at the pace of its notes; null where neither is known */
  expected: z.string().nullable(),
  /** by today: `due`, within 30 days `soon`, `later`; `by-hours` where only the hours would tell, and their pace is not known */
  state: z.enum(['due', 'soon', 'later', 'by-hours']),
});
export type DueRow = z.infer<typeof dueRowSchema>;

export const dueListSchema = z.object({
  /** the day it was asked for, 2027-03-01 */
  today: z.string(),
  due: z.array(dueRowSchema),
  /** rows that the list has no room for */
  more: z.number(),
});
export type DueList = z.infer<typeof dueListSchema>;

const SOON_DAYS = 30;
/** beyond this no pace foretells anything */
const MOST_DAYS = 20 * 366;

/** The day on which the stylus reaches so many hours. */
function reaches(stylus: Stylus | undefined, hours: number | null): string | null {
  const last = stylus?.notes.findLast((note) => note.hours !== null);
  if (stylus === undefined || last === undefined || last.hours === null || hours === null) return null;
  if (last.hours >= hours) return last.at.slice(0, 10);
  const pace = hoursADay(stylus);
  if (pace === null) return null;
  const days = (hours - last.hours) / pace;
  return days > MOST_DAYS ? null : dayText(dayNumber(last.at) + days);
}

const orders = ['due', 'soon', 'by-hours', 'later'] as const;

/**
 * @param styli of all decks
 * @param today in the bench's own zone, 2027-03-01
 * @returns what is due first
 */
export function dueRows(facts: readonly DueFact[], styli: readonly Stylus[], today: string): readonly DueRow[] {
  const onDeck = new Map(styli.filter(({ fitted }) => fitted).map((stylus) => [stylus.deck.id, stylus]));
  const soon = dayText(dayNumber(today) + SOON_DAYS);
  const rows = facts
    .filter(({ date, hours }) => date !== null || hours !== null)
    .map(({ deck, job, owner, date, hours }): DueRow => {
      const stylus = onDeck.get(deck.id);
      const days = [date, reaches(stylus, hours)].filter((day) => day !== null).sort();
      const expected = days[0] ?? null;
      const state = expected === null ? 'by-hours' : expected <= today ? 'due' : expected <= soon ? 'soon' : 'later';
      return { deck, job, owner, date, hours, stylusHours: stylus?.hours ?? null, expected, state };
    });
  return rows.sort(
    (a, b) =>
      orders.indexOf(a.state) - orders.indexOf(b.state) ||
      (a.expected ?? '').localeCompare(b.expected ?? '') ||
      b.job.number - a.job.number,
  );
}

export const dueListCsv = ({ due }: Pick<DueList, 'due'>): string =>
  csvText([
    ['state', 'expected', 'deck', 'owner', 'job', 'due_date', 'due_stylus_hours', 'stylus_hours_noted'],
    ...due.map(({ state, expected, deck, owner, job, date, hours, stylusHours }) => [
      state,
      expected,
      deck.name,
      owner,
      job.number,
      date,
      hours,
      stylusHours,
    ]),
  ]);
