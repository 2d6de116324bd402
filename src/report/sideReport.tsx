/** One recording of a test record as a report. */

import type { SideDocument } from '../core/advise/document.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';
import { AdviceList } from './adviceParts.tsx';
import { BandsTable, CaptureFacts, Problems } from './captureParts.tsx';
import { Charts } from './chart.tsx';
import { FindingsTable } from './findingsTable.tsx';
import { documentText, type Made, Sheet } from './sheet.tsx';

function SideBody({ document }: { document: SideDocument }) {
  return (
    <>
      <h2>{titles.recording}</h2>
      <CaptureFacts document={document} heard={null} />
      <BandsTable bands={document.bands} />
      {document.curves.length === 0 ? null : (
        <>
          <h2>{titles.curves}</h2>
          <Charts curves={document.curves} />
        </>
      )}
      <Problems problems={document.problems} />
    </>
  );
}

/**
 * A self-contained HTML document of one capture: findings with uncertainty and verdict, advice with its cautions, bands,
 * curves, and what could not be said.
 */
export function renderSideReport(document: SideDocument, made: Made): string {
  return documentText(
    <Sheet title={`${document.capture.file}: ${titles.sideTitle}`} made={made} kind="side">
      <header>
        <p class="soft">Platterside · {titles.sideTitle}</p>
        <h1>{document.capture.file}</h1>
      </header>
      <h2>{titles.toDo}</h2>
      {document.advice.length === 0 ? (
        <p>{say(statement('nothing-asked'))}</p>
      ) : (
        <AdviceList advice={document.advice} />
      )}
      <h2>{titles.readings}</h2>
      <FindingsTable findings={document.findings} caption="Value ± expanded uncertainty, k = 2" />
      <SideBody document={document} />
    </Sheet>,
  );
}
