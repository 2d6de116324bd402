/** Next checks over all decks, due ones first. */

import { apiPaths } from '../../core/job/api.ts';
import type { DueList } from '../../core/job/dueList.ts';
import { dueStateWords, dueWhen } from '../../core/job/historyWords.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { Fold } from '../parts/Fold.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { stationPath } from '../route.ts';
import { useAsked } from '../useAsked.ts';

function gist({ due }: DueList): string {
  const count = (state: string) => due.filter((row) => row.state === state).length;
  return due.length === 0 ? 'none set' : `${count('due')} due, ${count('soon')} within 30 days, ${due.length} in all`;
}

export function DueFold() {
  const list = useAsked(() => api.due(), []);

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
      {list.more > 0 && <p class="soft">{say(statement('more-not-shown', { count: list.more }))}</p>}
      <p>
        <a class="button" href={`${apiPaths.due}.csv`} download="next-checks.csv">
          Next checks as CSV
        </a>
      </p>
    </Fold>
  );
}
