/** The limits that a recording's verdicts went by, with their sources. */
import type { NamedLimits } from '../core/advise/limitsFile.ts';
import { quantityOf, quantityTitle } from '../core/words/quantities.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';

export function LimitsTable({ of: { deckClass, limits } }: { of: NamedLimits }) {
  return (
    <section class="keep">
      <h2>{titles.limits}</h2>
      <div class="wide">
        <table>
          <caption>{say(statement('limits-are', { class: deckClass }))}</caption>
          <thead>
            <tr>
              <th scope="col">{titles.quantity}</th>
              <th scope="col">{titles.good}</th>
              <th scope="col">{titles.bad}</th>
              <th scope="col">{titles.source}</th>
            </tr>
          </thead>
          <tbody>
            {Object.entries(limits).map(([quantity, { good, bad, sense, source }]) => (
              <tr>
                <th scope="row">{quantityTitle(quantity)}</th>
                <td>
                  {sense === 'above' ? titles.atLeast : titles.atMost} {good} {quantityOf(quantity).unit}
                </td>
                <td>
                  {titles.beyond} {bad} {quantityOf(quantity).unit}
                </td>
                <td>{source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
