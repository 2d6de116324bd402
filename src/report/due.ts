/** When the deck is due again, in one sentence. */
import { readQuantity } from '../core/job/fields/quantity.ts';
import { type HandOverTyped, handOverFields } from '../core/job/stations/handOver.ts';
import { say, statement } from '../core/words/statement.ts';

export function dueText({ dueHours, dueDate = '' }: HandOverTyped): string {
  const read = readQuantity(dueHours, handOverFields.dueHours);
  const hours = 'value' in read ? read.value : null;
  if (hours !== null && dueDate !== '') return say(statement('due-either', { hours, date: dueDate }));
  if (hours !== null) return say(statement('due-hours', { hours }));
  return say(dueDate === '' ? statement('due-open') : statement('due-date', { date: dueDate }));
}
