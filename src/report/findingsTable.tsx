/** The findings of a capture in one table; harmonics and the response over spans in others. */

import type { JudgedFinding } from '../core/advise/document.ts';
import { harmonicLines } from '../core/job/harmonicLines.ts';
import { spanLines } from '../core/job/spanLines.ts';
import { quantityTitle } from '../core/words/quantities.ts';
import { say, statement } from '../core/words/statement.ts';
import { bandsText } from './bandsText.ts';
import { Channel, FigureCell, VerdictMark } from './figures.tsx';
import { HarmonicsTable } from './harmonics.tsx';
import { SpansTable } from './spans.tsx';

export function FindingsTable({ findings, caption }: { findings: readonly JudgedFinding[]; caption: string }) {
  if (findings.length === 0) return <p>{say(statement('no-figure'))}</p>;
  const { lines, note, rest: others } = harmonicLines(findings);
  const { spans, rest } = spanLines(others);
  return (
    <>
      {rest.length === 0 ? null : <PlainFindings findings={rest} caption={caption} />}
      <SpansTable spans={spans} />
      <HarmonicsTable lines={lines} note={note} />
    </>
  );
}

/** Neither harmonics nor spans are among them; they have tables of their own. */
function PlainFindings({ findings, caption }: { findings: readonly JudgedFinding[]; caption: string }) {
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
                {finding.decidedBy === undefined ? null : <div class="note">{finding.decidedBy}</div>}
                {finding.note === '' ? null : <div class="note">{finding.note}</div>}
              </th>
              <FigureCell finding={finding} none="" />
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
