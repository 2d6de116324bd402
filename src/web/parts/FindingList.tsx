/** Findings one under the other; nothing where there are none. */
import type { JudgedFinding } from '../../core/advise/document.ts';
import { FindingRow, type FindingRowProps } from './FindingRow.tsx';

export function FindingList({
  findings,
  rowOf = () => ({}),
}: {
  findings: readonly JudgedFinding[];
  /** how the row of a finding differs from a plain one */
  rowOf?: (finding: JudgedFinding) => Omit<FindingRowProps, 'finding'>;
}) {
  if (findings.length === 0) return null;
  return (
    <ul class="findings">
      {findings.map((finding) => (
        <FindingRow
          key={`${finding.quantity} ${finding.channel} ${finding.bands.join()} ${finding.atHz}`}
          finding={finding}
          {...rowOf(finding)}
        />
      ))}
    </ul>
  );
}
