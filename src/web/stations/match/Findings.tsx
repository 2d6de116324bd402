/** Figures of Match as rows, each opening what it rests on. */

import type { JudgedFinding } from '../../../core/advise/document.ts';
import type { MatchDocument } from '../../../core/advise/match.ts';
import { evidenceDocument, findingsOf, withheldFor } from '../../../core/job/stations/match/answer.ts';
import { stopped } from '../../../core/words/statement.ts';
import { FindingList } from '../../parts/FindingList.tsx';
import { showEvidence } from '../../side/evidence.ts';

/**
 * As a row reads it. `low` and `high` of Match are what a part's range allows, which its note tells, and no interval of a reading. Thousands of
 * hertz are read in kHz: no digit is shown that its uncertainty does not bear.
 */
function atBench({ low: _low, high: _high, ...finding }: JudgedFinding): JudgedFinding {
  const { value, uncertainty, unit } = finding;
  if (unit !== 'Hz' || typeof value !== 'number' || value < 1000) return finding;
  return {
    ...finding,
    unit: 'kHz',
    value: value / 1000,
    uncertainty: uncertainty === null ? null : uncertainty / 1000,
  };
}

export interface FindingsProps {
  readonly document: MatchDocument;
  readonly quantities: readonly string[];
  /** false: the note stands in the evidence alone */
  readonly withNote?: boolean;
}

export function Findings({ document, quantities, withNote }: FindingsProps) {
  return (
    <FindingList
      findings={findingsOf(document, quantities).map(atBench)}
      rowOf={(finding) => ({ withNote, onEvidence: () => showEvidence(finding, evidenceDocument(document)) })}
    />
  );
}

/** Says why a part of the page stays empty; nothing where none of its quantities is withheld. */
export function LeftOut({ document, quantities }: { document: MatchDocument; quantities: readonly string[] }) {
  const reasons = withheldFor(document).filter((one) => one.quantities.some((name) => quantities.includes(name)));
  if (reasons.length === 0) return null;
  return (
    <>
      {reasons.map(({ why }) => (
        <p key={why} class="left-out">
          Left out: {stopped(why)}
        </p>
      ))}
    </>
  );
}
