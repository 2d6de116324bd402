/** Which decks are due for their next check: by the date of Hand over, or by the hours of the stylus on them. */
import { z } from 'zod';
import { dayNumber, dayText } from '../units/day.ts';
import { csvText } from '../words/csv.ts';
import { hoursADay, type Stylus } from './stylusHours.ts';

/** When a next check is wanted, as the newest job of a deck says it. */
interface Wanted {
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
export type DueState = DueRow['state'];

export const dueListSchema = z.object({
  /** the day it was asked for, 2027-03-01 */
  today: z.string(),
  due: z.array(dueRowSchema),
  /** of the whole list */
  counts: z.object({ due: z.number(), soon: z.number(), byHours: z.number(), later: z.number() }),
  /** what to ask for those after; left out where there are none */
  next: z.string().optional(),
});
export type DueList = z.infer<typeof dueListSchema>;

/** As `next` tells it: the expected day, where there is one, and the job's number. */
export const dueCursor = /^(\d{4}-\d{2}-\d{2})?_(\d{1,10})$/;

/** What `GET /api/due` is asked. */
export const dueQuerySchema = z.object({
  limit: z.coerce.number().int().min(1).max(500).default(100),
  after: z.string().regex(dueCursor, { error: 'after is what next of the page before told' }).optional(),
});
export type DueQuery = z.infer<typeof dueQuerySchema>;

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

/** The day on which a check is wanted, whichever comes first; null where neither day is known. @param stylus the one on the deck */
export function expectedDay({ date, hours }: Wanted, stylus: Stylus | undefined): string | null {
  const days = [date, reaches(stylus, hours)].filter((day) => day !== null).sort();
  return days[0] ?? null;
}

/** The last day that is soon. @param today in the bench's own zone, 2027-03-01 */
export const soonUntil = (today: string): string => dayText(dayNumber(today) + SOON_DAYS);

export function dueState(expected: string | null, today: string): DueState {
  if (expected === null) return 'by-hours';
  return expected <= today ? 'due' : expected <= soonUntil(today) ? 'soon' : 'later';
}

export const dueListHead = (): string =>
  csvText([['state', 'expected', 'deck', 'owner', 'job', 'due_date', 'due_stylus_hours', 'stylus_hours_noted']]);

export const dueListRows = ({ due }: Pick<DueList, 'due'>): string =>
  csvText(
    due.map(({ state, expected, deck, owner, job, date, hours, stylusHours }) => [
      state,
      expected,
      deck.name,
      owner,
      job.number,
      date,
      hours,
      stylusHours,
    ]),
  );

export const dueListCsv = (list: Pick<DueList, 'due'>): string => dueListHead() + dueListRows(list);
