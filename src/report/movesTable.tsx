/** Every move with what it should bring and what came of it, whichever station it was made at. */
import type { MoveTold } from '../core/job/movesMade.ts';
import { stationTitles } from '../core/job/station.ts';
import { shownFigure } from '../core/words/figure.ts';
import { isSigned, quantityTitle } from '../core/words/quantities.ts';
import { cameWords } from './adviceParts.tsx';
import { timeText } from './sheet.tsx';

const short = (value: number, unit: string, quantity: string): string =>
  shownFigure(Number(value.toFixed(2)), unit, null, isSigned(quantity));

function came({ foretold, checks }: MoveTold, place: number): string {
  const check = checks.find(({ quantity }) => quantity === foretold[place].quantity);
  if (check === undefined || check.measured === null) return 'not read again';
  return `${shownFigure(check.measured, check.unit, check.uncertainty)}, ${cameWords[check.came]}`;
}

export function MovesTable({ moves }: { moves: readonly MoveTold[] }) {
  return (
    <div class="wide">
      <table>
        <thead>
          <tr>
            <th scope="col">When, where</th>
            <th scope="col">Moved</th>
            <th scope="col">Foretold</th>
            <th scope="col">Came ± (k = 2)</th>
          </tr>
        </thead>
        <tbody>
          {moves.map((move) => (
            <tr>
              <th scope="row">
                {timeText(move.at)}, {stationTitles[move.station].title}
              </th>
              <td>{move.did}</td>
              <td>
                {move.foretold.map(({ quantity, value, unit }) => (
                  <div>
                    {quantityTitle(quantity)} {short(value, unit, quantity)}
                  </div>
                ))}
              </td>
              <td>
                {move.foretold.map((_, place) => (
                  <div>{came(move, place)}</div>
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
