/** What an uncertainty is made of: source, size, share of the whole. */
import type { ToldBudgetLine } from '../../core/advise/document.ts';
import { shownSpread } from '../../core/words/figure.ts';

export function BudgetTable({ budget }: { budget: readonly ToldBudgetLine[] }) {
  if (budget.length === 0) return null;
  return (
    <table class="rows">
      <caption class="unseen">What the uncertainty is made of</caption>
      <thead>
        <tr>
          <th scope="col">source</th>
          <th scope="col">size, k = 2</th>
          <th scope="col">share</th>
        </tr>
      </thead>
      <tbody>
        {budget.map(({ source, size, unit, share }) => (
          <tr key={source}>
            <th scope="row">{source}</th>
            <td>{shownSpread(size, unit)}</td>
            <td>{shownShare(share)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const shownShare = (share: number): string => (share < 0.005 ? 'under 1 %' : `${Math.round(100 * share)} %`);
