/** Figures in words: two lines where the deck's and this record's differ, and the verdict by mark and word. */
import type { JudgedFinding, Verdict } from '../core/advise/document.ts';
import { shownFigure, shownInterval, withThisRecord } from '../core/words/figure.ts';
import { isSigned, verdictWords } from '../core/words/quantities.ts';

export const VerdictMark = ({ verdict }: { verdict: Verdict }) => (
  <span class={`verdict ${verdict}`}>{verdictWords[verdict]}</span>
);

export const Channel = ({ channel }: { channel: 'left' | 'right' | undefined }) =>
  channel === undefined ? null : <span class={channel}>, {channel}</span>;

type Quantified = Pick<JudgedFinding, 'quantity' | 'value' | 'unit' | 'uncertainty' | 'repeatability' | 'low' | 'high'>;

/** Of the deck; then, where it says something else, with this record. Of an interval the reading is the second line. */
export function figureLines(finding: Quantified): readonly [string, string | null] {
  const { quantity, value, unit, uncertainty, repeatability, low, high } = finding;
  const signed = isSigned(quantity);
  const interval = shownInterval(low, high, unit);
  if (interval === null) return [shownFigure(value, unit, uncertainty, signed), withThisRecord(finding)];
  const reading = shownFigure(value, unit, repeatability ?? uncertainty, signed);
  return [interval, repeatability === undefined || repeatability === null ? reading : `${reading} with this record`];
}

/** Both lines, or why there is none. */
export function FigureCell({ finding, none }: { finding: JudgedFinding | null; none: string }) {
  if (finding === null)
    return (
      <td class="figure">
        <span class="soft">{none}</span>
      </td>
    );
  const [deck, record] = figureLines(finding);
  return (
    <td class="figure">
      {deck.replace(/^([a-z]+)-([a-z]+)$/, '$1 $2')}
      {record === null ? null : <div class="note">{record}</div>}
    </td>
  );
}
