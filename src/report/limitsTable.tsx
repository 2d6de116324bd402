/** The limits that a recording's verdicts went by: beside each figure, and all with their sources. */
import { type Limits, limitsOn } from '../core/advise/limits.ts';
import { type ChosenLimits, recheckTold } from '../core/job/stations/run/limits.ts';
import { unitSign } from '../core/words/figure.ts';
import { quantityOf, quantityTitle } from '../core/words/quantities.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';

/** "from 8 up to 12 Hz; outside under 6, beyond 15"; empty where a figure has none. */
export function limitText(quantity: string, limits: Limits): string {
  const on = limitsOn(quantity, limits);
  if (on.length === 0) return '';
  const good = on.map((limit) => `${limit.sense === 'above' ? titles.atLeast : titles.atMost} ${limit.good}`);
  const bad = on.map((limit) => `${limit.sense === 'above' ? titles.under : titles.beyond} ${limit.bad}`);
  return `${good.join(' ')} ${unitSign(quantityOf(quantity).unit)}; ${titles.bad.toLowerCase()} ${bad.join(', ')}`;
}

export function LimitsTable({ of: { deckClass, limits, recheck } }: { of: ChosenLimits }) {
  return (
    <section>
      <h2>{titles.limits}</h2>
      <div class="wide">
        <table class="limits">
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
                <td class="whole">
                  {sense === 'above' ? titles.atLeast : titles.atMost} {good} {unitSign(quantityOf(quantity).unit)}
                </td>
                <td class="whole">
                  {sense === 'above' ? titles.under : titles.beyond} {bad} {unitSign(quantityOf(quantity).unit)}
                </td>
                <td>{source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        {titles.recheck}: {recheckTold(recheck)}.
      </p>
    </section>
  );
}
