/** When the deck is due again, in one sentence. */
import { say, statement } from '../../../words/statement.ts';
import { type Field, fieldOf } from '../../fields/field.ts';
import { typedValue } from '../../fields/quantity.ts';
import type { HandOverTyped } from '../handOver.ts';

export const dueHoursField: Field = fieldOf('Next check at', { unit: 'h', min: 1, max: 20_000 }, 'Stylus hours');

export interface Due {
  /** stylus hours */
  readonly hours: number | null;
  /** 2027-03-01 */
  readonly date: string | null;
}

/** Both null: nothing is set. Hours that cannot be read are not set. */
export const dueOf = ({ dueHours, dueDate = '' }: HandOverTyped): Due => ({
  hours: typedValue(dueHours, dueHoursField),
  date: dueDate === '' ? null : dueDate,
});

export function dueText(typed: HandOverTyped): string {
  const { hours, date } = dueOf(typed);
  if (hours !== null && date !== null) return say(statement('due-either', { hours, date }));
  if (hours !== null) return say(statement('due-hours', { hours }));
  return say(date === null ? statement('due-open') : statement('due-date', { date }));
}
