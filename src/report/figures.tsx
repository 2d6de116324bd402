/** Figures in tables: what was found, and what changed. */
import type { JudgedFinding, Verdict } from '../core/advise/document.ts';
import type { BeforeAfter } from '../core/job/api.ts';
import { shownFigure, shownInterval } from '../core/words/figure.ts';
import { isSigned, quantityTitle, verdictWords } from '../core/words/quantities.ts';

export const VerdictMark = ({ verdict }: { verdict: Verdict }) => <span class={verdict}>{verdictWords[verdict]}</span>;

export const Channel = ({ channel }: { channel: 'left' | 'right' | undefined }) =>
  channel === undefined ? null : <span class={channel}>, {channel}</span>;

type Quantified = Pick<JudgedFinding, 'quantity' | 'value' | 'unit' | 'uncertainty' | 'low' | 'high'>;

/** Value with uncertainty, or the band that a forecast gives. */
export function figureText({ quantity, value, unit, uncertainty, low, high }: Quantified): string {
  const text = shownFigure(value, unit, uncertainty, isSigned(quantity));
  const interval = shownInterval(low, high, unit);
  return interval === null ? text : `${text} (${interval})`;
}

function changeText({ change, changeUncertainty, unit, before, after }: BeforeAfter): string {
  if (change !== null) return shownFigure(change, unit, changeUncertainty, true);
  return before.value === after.value ? 'as before' : 'changed';
}

/** Which band of the last capture, where the table holds the same figure of several. */
function bandOf({ quantity, channel, after }: BeforeAfter, pairs: readonly BeforeAfter[]): string {
  const alike = pairs.filter((one) => one.quantity === quantity && one.channel === channel);
  return alike.length > 1 && after.bands.length === 1 ? `, band ${after.bands[0] + 1}` : '';
}

export function BeforeAfterTable({ pairs }: { pairs: readonly BeforeAfter[] }) {
  return (
    <div class="wide">
      <table>
        <caption>
          As received, against the newest recording of what is fitted now. The uncertainty of a change treats the two as
          independent, so it errs on the safe side.
        </caption>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col" class="figure">
              Before
            </th>
            <th scope="col" class="figure">
              After
            </th>
            <th scope="col" class="figure">
              Change
            </th>
            <th scope="col">Now</th>
          </tr>
        </thead>
        <tbody>
          {pairs.map((pair) => (
            <tr>
              <th scope="row">
                {quantityTitle(pair.quantity)}
                <Channel channel={pair.channel} />
                {bandOf(pair, pairs)}
              </th>
              <td class="figure">{figureText(pair.before)}</td>
              <td class="figure">{figureText(pair.after)}</td>
              <td class="figure">{changeText(pair)}</td>
              <td>
                <VerdictMark verdict={pair.after.verdict} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
