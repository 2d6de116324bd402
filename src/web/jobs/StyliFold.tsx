/** Every stylus with its hours, over all jobs. */

import { apiPaths } from '../../core/job/api.ts';
import { stylusName } from '../../core/job/historyWords.ts';
import type { StylusLedger } from '../../core/job/stylusHours.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { dayHere } from '../localTime.ts';
import { Fold } from '../parts/Fold.tsx';
import { Pages, usePages } from '../parts/Pages.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { storeTurn } from '../storeTurn.ts';
import { useAsked } from '../useAsked.ts';

function gist({ styli, next }: StylusLedger, first: boolean): string {
  if (first && next === undefined) return styli.length === 0 ? 'none noted' : `${styli.length} styli`;
  return `${styli.length} styli on this page`;
}

export function StyliFold() {
  const pages = usePages<number>();
  const ledger = useAsked(() => api.styli(pages.at), [pages.at, storeTurn.value]);

  if (ledger === null) return null;
  return (
    <Fold title="Stylus hours" answer={gist(ledger, pages.at === undefined)}>
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
      <div class="buttons">
        <Pages turning={pages} next={ledger.next} back="Newer decks" on="Older decks" />
        <a class="button" href={`${apiPaths.styli}.csv`} download="stylus-hours.csv">
          Stylus hours as CSV
        </a>
      </div>
    </Fold>
  );
}
