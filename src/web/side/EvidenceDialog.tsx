/** What a figure rests on: its curves, the bands it was read from, its uncertainty, its formula and the page about it. */

import { useEffect, useRef, useState } from 'preact/hooks';
import { shownInterval, withThisRecord } from '../../core/words/figure.ts';
import { quantityOf, quantityTitle, verdictWords } from '../../core/words/quantities.ts';
import { say, statement } from '../../core/words/statement.ts';
import { formulaOf } from '../docs/markdown.ts';
import { methodPage } from '../docs/methodPages.ts';
import { loadPage } from '../docs/pages.ts';
import { Figure } from '../parts/Figure.tsx';
import { docsPath } from '../route.ts';
import { BudgetTable } from './BudgetTable.tsx';
import { bandTimes, bandWords } from './bandWords.ts';
import { CurveChart } from './CurveChart.tsx';
import { curvesFor, type Evidence, openEvidence } from './evidence.ts';

export function EvidenceDialog() {
  const evidence = openEvidence.value;
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (evidence !== null && dialog.current?.open === false) dialog.current.showModal();
  }, [evidence]);
  const close = (): void => dialog.current?.close();
  return (
    <dialog
      class="evidence"
      ref={dialog}
      aria-labelledby="evidence-name"
      onClose={() => {
        openEvidence.value = null;
      }}
      onClick={(event) => {
        if (event.target === dialog.current) close();
      }}
      onKeyDown={() => undefined}
    >
      {evidence !== null && (
        <>
          <header>
            <h2 id="evidence-name" tabIndex={-1}>
              {quantityTitle(evidence.finding.quantity)}
              {evidence.finding.channel === undefined ? '' : `, ${evidence.finding.channel}`}
            </h2>
            <button type="button" class="button" onClick={close}>
              Close
            </button>
          </header>
          <EvidenceBody evidence={evidence} onLeave={close} />
        </>
      )}
    </dialog>
  );
}

function EvidenceBody({ evidence, onLeave }: { evidence: Evidence; onLeave(): void }) {
  const { finding, document } = evidence;
  const { positive } = quantityOf(finding.quantity);
  const groups = curvesFor(evidence);
  const spread = withThisRecord(finding);
  const interval = shownInterval(finding.low, finding.high, finding.unit);
  return (
    <div class="body">
      <Figure
        value={finding.value}
        unit={finding.unit}
        uncertainty={finding.uncertainty}
        size="mid"
        signed={positive !== undefined}
      />
      <p>
        {finding.verdict !== 'info' && (
          <span class={`verdict ${finding.verdict}`}>{verdictWords[finding.verdict]}. </span>
        )}
        {positive} {finding.note}
      </p>
      {groups.map((group) => (
        <CurveChart
          key={`${group.quantity} ${group.band}`}
          group={group}
          bands={document.bands}
          findings={document.findings}
        />
      ))}
      {finding.bands.length > 0 && (
        <section>
          <h3>Read from</h3>
          <ul>
            {finding.bands
              .map((index) => document.bands[index])
              .filter((band) => band !== undefined)
              .map((band) => (
                <li key={band.index}>
                  Band {band.index + 1}: {bandWords(band)}, {bandTimes(band)}
                </li>
              ))}
          </ul>
          <p class="soft small">
            {document.capture.file}
            {document.capture.sha256 !== null && (
              <>
                {' '}
                · fingerprint (SHA-256) <code>{document.capture.sha256.slice(0, 16)}…</code>
              </>
            )}
          </p>
        </section>
      )}
      <section>
        <h3>Uncertainty</h3>
        <p>
          {finding.uncertainty === null ? say(statement('no-uncertainty-given')) : say(statement('uncertainty-is'))}
        </p>
        {spread !== null && <p>{say(statement('repeats-within', { spread }))}</p>}
        {interval !== null && <p>{say(statement('interval-is', { interval }))}</p>}
        {finding.decidedBy !== undefined && <p>{finding.decidedBy}</p>}
        <BudgetTable budget={finding.budget ?? []} />
      </section>
      <Method quantity={finding.quantity} onLeave={onLeave} />
    </div>
  );
}

function Method({ quantity, onLeave }: { quantity: string; onLeave(): void }) {
  const [method, setMethod] = useState<{ page: string; formula: string | null } | null>(null);
  useEffect(() => {
    let current = true;
    void (async () => {
      const page = await methodPage(quantity);
      const source = page === null ? null : await loadPage(page).catch(() => null);
      if (current) setMethod(page === null || source === null ? null : { page, formula: formulaOf(source) });
    })();
    return () => {
      current = false;
    };
  }, [quantity]);
  if (method === null) return null;
  return (
    <section>
      <h3>How it is found</h3>
      {method.formula !== null && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
        <pre tabIndex={0}>
          <code>{method.formula}</code>
        </pre>
      )}
      <p>
        <a href={docsPath(method.page)} onClick={onLeave}>
          Formula, source and limits in full
        </a>
      </p>
    </section>
  );
}
