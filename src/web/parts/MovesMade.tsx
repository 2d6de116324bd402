/** The moves that were made, and whether they brought what was predicted. */

import { checkMove, type MoveFigure, type MoveRecord, moveWords } from '../../core/job/moveRecord.ts';
import { figureWords } from '../../core/job/stations/place/madeMoves.ts';
import { capital } from '../../core/words/capital.ts';
import { unitSign } from '../../core/words/figure.ts';
import { decimalsAtBench, showFigure, showNumber } from '../../core/words/number.ts';
import { say, statement, stopped } from '../../core/words/statement.ts';
import { timeHere } from '../localTime.ts';
import { Came, surprises } from './Came.tsx';
import { ScrollTable } from './ScrollTable.tsx';

export interface MovesMadeProps {
  readonly moves: readonly MoveRecord[];
  /** the reading that is on the form now */
  readonly now: readonly MoveFigure[] | null;
  onTakenBack(): void;
}

export function MovesMade({ moves, now, onTakenBack }: MovesMadeProps) {
  const last = moves.at(-1);
  if (last === undefined) return null;
  const read = now ?? last.came?.figures ?? null;
  return (
    <section class="card stack" aria-label="Moved, predicted and read">
      <h3 class="strong">Moved, and what came of it</h3>
      <ol class="steps">
        {moves.map((move) => (
          <li key={move.at}>
            {stopped(capital(moveWords(move)))} <span class="soft small">{timeHere(move.at)}</span>
          </li>
        ))}
      </ol>
      {read === null ? (
        <p class="invite">{say(statement('read-again-above'))}</p>
      ) : (
        last.foretold.length > 0 && <CheckTable move={last} read={read} />
      )}
      <div class="buttons">
        <button type="button" class="button" onClick={onTakenBack}>
          Take the last move back
        </button>
        <span class="soft small">{say(statement('taken-back-brings'))}</span>
      </div>
    </section>
  );
}

function CheckTable({ move, read }: { move: MoveRecord; read: readonly MoveFigure[] }) {
  const checks = checkMove(move, read);
  const own = new Map(read.map(({ quantity, uncertainty }) => [quantity, uncertainty]));
  return (
    <>
      <ScrollTable
        name="Predicted and read"
        heads={[{ unseen: 'Figure' }, 'before', 'predicted', 'read again', 'came']}
      >
        {checks.map(({ quantity, unit, before, predicted, measured, came }) => {
          const shown =
            measured === null ? null : showFigure(measured, own.get(quantity) ?? null, false, decimalsAtBench(unit));
          const decimals = shown === null ? 1 : (shown.value.split('.')[1] ?? '').length;
          return (
            <tr key={quantity}>
              <th scope="row">{figureWords(quantity)}</th>
              <td>{before === null ? '' : showNumber(before, decimals)}</td>
              <td>{showNumber(predicted, decimals)}</td>
              <td>
                {shown === null ? 'not read' : shown.value}{' '}
                <span class="pm">
                  {shown === null || shown.uncertainty === null ? '' : `± ${shown.uncertainty} `}
                  {unitSign(unit)}
                </span>
              </td>
              <td>
                <Came came={came} />
              </td>
            </tr>
          );
        })}
      </ScrollTable>
      <p class="soft small">{say(statement('as-predicted-is'))}</p>
      {surprises(checks).map((why) => (
        <p class="soft small" key={why}>
          {why}
        </p>
      ))}
    </>
  );
}
