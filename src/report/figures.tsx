/** Figures in words: two lines where the deck's and this record's differ, and the verdict by mark and word. */
import type { JudgedFinding, Verdict } from '../core/advise/document.ts';
import { figureLines } from '../core/words/figureLines.ts';
import { verdictWords } from '../core/words/quantities.ts';

export const VerdictMark = ({ verdict }: { verdict: Verdict }) => (
  <span class={`verdict ${verdict}`}>{verdictWords[verdict]}</span>
);

export const Channel = ({ channel }: { channel: 'left' | 'right' | undefined }) =>
  channel === undefined ? null : <span class={channel}>, {channel}</span>;

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
