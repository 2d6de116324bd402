/** Next checks over all decks, due ones first. */
import { useEffect, useState } from 'preact/hooks';
import { apiPaths } from '../../core/job/api.ts';
import type { DueList } from '../../core/job/dueList.ts';
import { dueStateWords, dueWhen } from '../../core/job/historyWords.ts';
import { api } from '../api.ts';
import { Fold } from '../parts/Fold.tsx';
import { stationPath } from '../route.ts';

function gist({ due }: DueList): string {
  const count = (state: string) => due.filter((row) => row.state === state).length;
  return due.length === 0 ? 'none set' : `${count('due')} due, ${count('soon')} within 30 days, ${due.length} in all`;
}

export function DueFold() {
  const [list, setList] = useState<DueList | null>(null);
  useEffect(() => {
    api.due().then(setList, () => undefined);
  }, []);
  if (list === null) return null;
  return (
    <Fold title="Next checks" answer={gist(list)}>
      {list.due.length === 0 ? (
        <p>Hand over sets them: a date, or hours of the stylus.</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
        <section class="scroll-x" tabIndex={0} aria-label="Next checks, table">
          <table class="rows">
            <thead>
              <tr>
                <th scope="col">Deck</th>
                <th scope="col">State</th>
                <th scope="col">Expected</th>
                <th scope="col">Next check</th>
                <th scope="col">Owner</th>
              </tr>
            </thead>
            <tbody>
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
            </tbody>
          </table>
        </section>
      )}
      {list.more > 0 && <p class="soft">{`${list.more} more are not shown.`}</p>}
      <p>
        <a class="button" href={`${apiPaths.due}.csv`} download="next-checks.csv">
          Next checks as CSV
        </a>
      </p>
    </Fold>
  );
}
