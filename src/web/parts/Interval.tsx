/** In a cell of a table: an interval and, under it, what was read; nothing of either where a figure has none. */
import { figureLines, type Quantified } from '../../core/words/figureLines.ts';

export const hasInterval = ({ low, high }: Quantified): boolean => low !== undefined && high !== undefined;

export function Interval({ finding }: { finding: Quantified }) {
  const [interval, reading] = figureLines(finding);
  return (
    <>
      <span class="interval">{interval}</span>
      <div class="soft small">{reading}</div>
    </>
  );
}
