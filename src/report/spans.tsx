/** Response over stated spans as one table instead of three rows a span. */
import type { JudgedFinding } from '../core/advise/document.ts';
import type { SpanLine } from '../core/job/spanLines.ts';
import { figureLines } from '../core/words/figureLines.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { bandsText } from './bandsText.ts';
import { VerdictMark } from './figures.tsx';

const Cell = ({ finding }: { finding: JudgedFinding | undefined }) => (
  <td class="figure">
    {finding === undefined ? '–' : figureLines(finding)[0]}{' '}
    {finding !== undefined && finding.verdict !== 'info' && <VerdictMark verdict={finding.verdict} />}
  </td>
);

export function SpansTable({ spans }: { spans: readonly SpanLine[] }) {
  if (spans.length === 0) return null;
  return (
    <div class="wide">
      <table>
        <caption>{titles.spans}</caption>
        <thead>
          <tr>
            <th scope="col">{titles.span}</th>
            <th scope="col">{titles.band}</th>
            <th scope="col" class="figure">
              {titles.left}
            </th>
            <th scope="col" class="figure">
              {titles.right}
            </th>
            <th scope="col" class="figure">
              {titles.difference}
            </th>
            <th scope="col">{titles.source}</th>
          </tr>
        </thead>
        <tbody>
          {spans.map(({ span, bands, left, right, difference, whose }) => (
            <tr>
              <th scope="row">{span}</th>
              <td>{bandsText(bands)}</td>
              <Cell finding={left} />
              <Cell finding={right} />
              <Cell finding={difference} />
              <td>{whose}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
