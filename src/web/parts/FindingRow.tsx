/** One finding: its name (opens the evidence), its figure with both spreads, its verdict in a word and a sign, its note. */
import type { JudgedFinding } from '../../core/advise/document.ts';
import { figureLines } from '../../core/words/figureLines.ts';
import { isSigned, quantityTitle, verdictWords } from '../../core/words/quantities.ts';
import { Figure } from './Figure.tsx';

export interface FindingRowProps {
  readonly finding: JudgedFinding;
  /** told apart because its band is picked */
  readonly picked?: boolean;
  onEvidence?(): void;
  readonly withNote?: boolean;
  /** tells apart two figures of one name, e.g. "band 6" */
  readonly where?: string;
}

export function FindingRow({ finding, picked, onEvidence, withNote = true, where }: FindingRowProps) {
  const title = [quantityTitle(finding.quantity), finding.channel, where]
    .filter((part) => part !== undefined)
    .join(', ');
  const [, second] = figureLines(finding);
  return (
    <li class={picked === true ? 'finding picked' : 'finding'}>
      <span class="name">
        {onEvidence === undefined ? (
          title
        ) : (
          <button type="button" class="evidence-button" onClick={onEvidence} aria-haspopup="dialog">
            {title}
          </button>
        )}
      </span>
      <span class="said">
        {verdictWords[finding.verdict] !== '' && (
          <span class={`verdict ${finding.verdict}`}>{verdictWords[finding.verdict]}</span>
        )}
        <Figure
          value={finding.value}
          unit={finding.unit}
          uncertainty={finding.uncertainty}
          low={finding.low}
          high={finding.high}
          signed={isSigned(finding.quantity)}
        />
      </span>
      {second !== null && <p class="note">{second}</p>}
      {finding.decidedBy !== undefined && <p class="note">{finding.decidedBy}</p>}
      {withNote && finding.note !== '' && <p class="note">{finding.note}</p>}
    </li>
  );
}
