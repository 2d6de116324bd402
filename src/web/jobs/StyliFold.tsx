/** Every stylus with its hours, over all jobs. */

import { apiPaths } from '../../core/job/api.ts';
import { stylusName } from '../../core/job/historyWords.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { dayHere } from '../localTime.ts';
import { Fold } from '../parts/Fold.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { useAsked } from '../useAsked.ts';

export function StyliFold() {
  const ledger = useAsked(() => api.styli(), []);

  if (ledger === null) return null;
  return (
    <Fold title="Stylus hours" answer={ledger.styli.length === 0 ? 'none noted' : `${ledger.styli.length} styli`}>
      {ledger.styli.length === 0 ? (
        <p>{say(statement('hours-are-taken'))}</p>
      ) : (
        <ScrollTable name="Stylus hours" heads={['Stylus', 'Deck', 'Hours', 'Noted']}>
          {ledger.styli.map((stylus) => (
            <tr key={`${stylus.deck.id} ${stylus.notes[0].at}`}>
              <th scope="row">{stylusName(stylus)}</th>
              <td>
                {stylus.deck.name}
                {stylus.fitted ? '' : ', taken off'}
              </td>
              <td>{stylus.hours === null ? 'not known' : `${stylus.hours} h`}</td>
              <td>
                {stylus.notes
                  .map(({ job, at, hours }) => `${dayHere(at)}, job ${job}${hours === null ? '' : `: ${hours} h`}`)
                  .join('; ')}
              </td>
            </tr>
          ))}
        </ScrollTable>
      )}
      {ledger.more > 0 && <p class="soft">{say(statement('more-not-shown', { count: ledger.more }))}</p>}
      {ledger.older > 0 && <p class="soft">{say(statement('older-in-csv', { count: ledger.older }))}</p>}
      <p>
        <a class="button" href={`${apiPaths.styli}.csv`} download="stylus-hours.csv">
          Stylus hours as CSV
        </a>
      </p>
    </Fold>
  );
}
