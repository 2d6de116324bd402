/** One capture of a test record as a sheet. */
import type { SideDocument } from '../core/advise/document.ts';
import { AdviceList } from './adviceParts.tsx';
import { BandsTable, CaptureFacts, Problems } from './captureParts.tsx';
import { Charts } from './chart.tsx';
import { FindingsTable } from './findingsTable.tsx';
import { documentText, type Made, Sheet } from './sheet.tsx';

/** The part that a single capture and the last capture of a job have in common. */
export function SideBody({ document, heard }: { document: SideDocument; heard: string | null }) {
  return (
    <>
      <h2>The recording</h2>
      <CaptureFacts document={document} heard={heard} />
      <BandsTable bands={document.bands} />
      {document.curves.length === 0 ? null : (
        <>
          <h2>Evidence</h2>
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
    <Sheet title={`${document.capture.file}: what the test record shows`} made={made}>
      <header>
        <p class="soft">Platterside · what a recording of a test record shows</p>
        <h1>{document.capture.file}</h1>
      </header>
      <h2>What to do</h2>
      {document.advice.length === 0 ? (
        <p>Nothing that these figures ask for.</p>
      ) : (
        <AdviceList advice={document.advice} />
      )}
      <h2>Figures</h2>
      <FindingsTable findings={document.findings} caption="Value ± expanded uncertainty, k = 2" />
      <SideBody document={document} heard={null} />
    </Sheet>,
  );
}
