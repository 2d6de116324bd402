/** The findings of a capture in one table, harmonics in another. */

import type { JudgedFinding } from '../core/advise/document.ts';
import { harmonicLines } from '../core/job/harmonicLines.ts';
import { quantityTitle } from '../core/words/quantities.ts';
import { say, statement } from '../core/words/statement.ts';
import { bandsText } from './bandsText.ts';
import { Channel, FigureCell, VerdictMark } from './figures.tsx';
import { HarmonicsTable } from './harmonics.tsx';

export function FindingsTable({ findings, caption }: { findings: readonly JudgedFinding[]; caption: string }) {
  if (findings.length === 0) return <p>{say(statement('no-figure'))}</p>;
  const { lines, note, rest } = harmonicLines(findings);
  return (
    <>
      {rest.length === 0 ? null : <PlainFindings findings={rest} caption={caption} />}
      <HarmonicsTable lines={lines} note={note} />
    </>
  );
}

/** Harmonics are not among them; they have a table of their own. */
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
