/** Figures in tables: what was found, and what changed. */
import type { JudgedFinding, Verdict } from '../core/advise/document.ts';
import type { BeforeAfter } from '../core/job/api.ts';
import { isSigned, quantityTitle } from '../core/job/quantityTitles.ts';
import { shownFigure, unitSign } from '../core/job/shownFigure.ts';

const verdictWords: Readonly<Record<Verdict, string>> = {
  good: '✓ within limits',
  adjust: '△ worth adjusting',
  bad: '✕ outside limits',
  info: '',
};

export const VerdictMark = ({ verdict }: { verdict: Verdict }) => <span class={verdict}>{verdictWords[verdict]}</span>;

export const Channel = ({ channel }: { channel: 'left' | 'right' | undefined }) =>
  channel === undefined ? null : <span class={channel}>, {channel}</span>;

type Quantified = Pick<JudgedFinding, 'quantity' | 'value' | 'unit' | 'uncertainty' | 'low' | 'high'>;

/** Value with uncertainty, or the band that a forecast gives. */
export function figureText({ quantity, value, unit, uncertainty, low, high }: Quantified): string {
  const text = shownFigure(value, unit, uncertainty, isSigned(quantity));
  if (low === undefined || high === undefined) return text;
  return `${text} (${shownFigure(low, '', null)} to ${shownFigure(high, '', null)} ${unitSign(unit)})`.trim();
}

/** Bands are counted from 1 on a sheet that people read. */
const bandsText = (bands: readonly number[]): string =>
  bands.length === 0 ? '–' : bands.map((band) => band + 1).join(', ');

export function FindingsTable({ findings, caption }: { findings: readonly JudgedFinding[]; caption: string }) {
  if (findings.length === 0) return <p>No figure could be given.</p>;
  return (
    <div class="wide">
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col" class="figure">
              Value
            </th>
            <th scope="col">Verdict</th>
            <th scope="col">Read from band</th>
          </tr>
        </thead>
        <tbody>
          {findings.map((finding) => (
            <tr>
              <th scope="row">
                {quantityTitle(finding.quantity)}
                <Channel channel={finding.channel} />
                {finding.note === '' ? null : <div class="note">{finding.note}</div>}
              </th>
              <td class="figure">{figureText(finding)}</td>
              <td>
                <VerdictMark verdict={finding.verdict} />
              </td>
              <td>{bandsText(finding.bands)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function changeText({ change, changeUncertainty, unit, before, after }: BeforeAfter): string {
  if (change !== null) return shownFigure(change, unit, changeUncertainty, true);
  return before.value === after.value ? 'as before' : 'changed';
}

export function BeforeAfterTable({ pairs }: { pairs: readonly BeforeAfter[] }) {
  return (
    <div class="wide">
      <table>
        <caption>
          First capture of the job that holds the figure, against the last. The uncertainty of a change takes the two as
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
