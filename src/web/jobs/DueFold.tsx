/** Next checks over all decks, due ones first. */

import { apiPaths } from '../../core/job/api.ts';
import type { DueList } from '../../core/job/dueList.ts';
import { dueStateWords, dueWhen } from '../../core/job/historyWords.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { Fold } from '../parts/Fold.tsx';
import { Pages, usePages } from '../parts/Pages.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { stationPath } from '../route.ts';
import { storeTurn } from '../storeTurn.ts';
import { useAsked } from '../useAsked.ts';

function gist({ counts: { due, soon, byHours, later } }: DueList): string {
  const all = due + soon + byHours + later;
  return all === 0 ? 'none set' : `${due} due, ${soon} within 30 days, ${all} in all`;
}

export function DueFold() {
  const pages = usePages<string>();
  const list = useAsked(() => api.due(pages.at), [pages.at, storeTurn.value]);

  if (list === null) return null;
  return (
    <Fold title="Next checks" answer={gist(list)}>
      {list.due.length === 0 ? (
        <p>{say(statement('hand-over-sets-checks'))}</p>
      ) : (
        <ScrollTable name="Next checks" heads={['Deck', 'State', 'Expected', 'Next check', 'Owner']}>
          {list.due.map((row) => (
            <tr key={row.deck.id}>
              <th scope="row">
                <a href={stationPath(row.job.id, 'hand-over')}>{row.deck.name}</a>
              </th>
              <td>{dueStateWords[row.state]}</td>
              <td>{row.expected ?? ''}</td>
              <td>{dueWhen(row)}</td>
              <td>{row.owner}</td>
            </tr>
          ))}
        </ScrollTable>
      )}
      <div class="buttons">
        <Pages turning={pages} next={list.next} back="Checks before these" on="Checks after these" />
        <a class="button" href={`${apiPaths.due}.csv`} download="next-checks.csv">
          Next checks as CSV
        </a>
      </div>
    </Fold>
  );
}
