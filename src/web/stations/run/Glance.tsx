/** One screen of verdicts, by group; each figure opens its picture. */

import type { JudgedFinding, SideDocument, Verdict } from '../../../core/advise/document.ts';
import { glanceOf } from '../../../core/job/stations/run/glance.ts';
import { isSigned, shortTitle, verdictWords } from '../../../core/words/quantities.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Figure } from '../../parts/Figure.tsx';
import { showEvidence } from '../../side/evidence.ts';

export function Glance({ document }: { document: SideDocument }) {
  const groups = glanceOf(document.findings);
  if (groups.length === 0) {
    return (
      <section class="card">
        <p>{say(statement('no-figure-from-recording'))}</p>
      </section>
    );
  }
  return (
    <section class="glance" aria-label="Verdicts">
      {groups.map(({ group, title, verdict, shown }) => (
        <section class="card" key={group} aria-label={title}>
          <h3>{title}</h3>
          {verdictWords[verdict] !== '' && <p class={`verdict ${verdict}`}>{verdictWords[verdict]}</p>}
          <ul>
            {shown.map((finding) => (
              <Row key={finding.quantity} finding={finding} document={document} />
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}

/** "✓": the word stands at the head of the group. */
const sign = (verdict: Verdict): string => verdictWords[verdict]?.split(' ')[0] ?? '';

function Row({ finding, document }: { finding: JudgedFinding; document: SideDocument }) {
  const { quantity, channel, value, unit, uncertainty, low, high, verdict, bands } = finding;
  const alike = document.findings.filter((one) => one.quantity === quantity && one.channel === channel);
  return (
    <li>
      <button
        type="button"
        class="evidence-button"
        aria-haspopup="dialog"
        onClick={() => showEvidence(finding, document)}
      >
        {shortTitle(quantity)}
        {channel === undefined ? '' : `, ${channel}`}
        {bands.length === 1 && alike.length > 1 ? `, band ${bands[0] + 1}` : ''}
      </button>
      <span class="said">
        <Figure value={value} unit={unit} uncertainty={uncertainty} low={low} high={high} signed={isSigned(quantity)} />
        {sign(verdict) !== '' && (
          <span class={`verdict ${verdict}`} role="img" aria-label={verdictWords[verdict]}>
            {sign(verdict)}
          </span>
        )}
      </span>
    </li>
  );
}
