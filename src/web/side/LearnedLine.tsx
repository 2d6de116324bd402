/** What was learned of the record that is picked, and the one control that leaves it out. */
import { learnedLeaksText } from '../../core/advise/budget/learnedRecord.ts';
import { job } from '../jobState.ts';
import { Check } from '../parts/Choice.tsx';
import { setShop } from '../shop.ts';
import { learnedRecord } from './learned.ts';

export function LearnedLine() {
  const told = learnedRecord.value;
  if (told === null || told.decks === 0) return null;
  if (told.learned === null) {
    return (
      <p class="soft small">
        Played on {told.decks} {told.decks === 1 ? 'deck' : 'decks'} of this shop so far; from ten on its own leaks,
        balance and speed are learned from them.
      </p>
    );
  }
  const leaks = learnedLeaksText(told.learned);
  return (
    <div>
      <Check
        label={`Use what was learned of this record from ${told.learned.decks} decks`}
        checked={job.value?.shop.learnedOff !== true}
        onChecked={(on) => setShop({ learnedOff: on ? undefined : true })}
      />
      <p class="soft small">
        {leaks === null ? '' : `${leaks} `}
        What all decks have in common is the record’s own: its leaks, balance and speed replace the assumed ones, a
        certificate comes first. Holds from the next reading on, for all jobs.
      </p>
    </div>
  );
}
