/** What was learned of the record that is picked, and the one control that leaves it out. */
import { learnedLeaksText } from '../../core/advise/budget/learnedRecord.ts';
import { say, statement } from '../../core/words/statement.ts';
import { job } from '../jobState.ts';
import { Check } from '../parts/Choice.tsx';
import { setShop } from '../shop.ts';
import { learnedRecord } from './learned.ts';

export function LearnedLine() {
  const told = learnedRecord.value;
  if (told === null || told.decks === 0) return null;
  if (told.learned === null) {
    return <p class="soft small">{say(statement('record-played-on', { decks: told.decks }))}</p>;
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
        {say(statement('learned-is-record-own'))}
      </p>
    </div>
  );
}
