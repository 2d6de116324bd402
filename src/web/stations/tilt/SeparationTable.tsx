/** Now, and after the turn: separation both ways, balance, polarity. Each name opens its evidence. */

import type { JudgedFinding, SideDocument } from '../../../core/advise/document.ts';
import { isTurn } from '../../../core/advise/turn.ts';
import { unitSign } from '../../../core/words/figure.ts';
import { decimalsAtBench, showFigure, showNumber } from '../../../core/words/number.ts';
import { verdictWords } from '../../../core/words/quantities.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { hasInterval, Interval } from '../../parts/Interval.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { findingOf } from '../../side/shownSide.ts';

const rows = [
  { quantity: 'separation-left-to-right', name: 'left into right', channel: 'left', signed: false },
  { quantity: 'separation-right-to-left', name: 'right into left', channel: 'right', signed: false },
  { quantity: 'channel-balance', name: 'left against right level', channel: null, signed: true },
  { quantity: 'polarity', name: 'polarity', channel: null, signed: false },
  { quantity: 'channel-order', name: 'channel order', channel: null, signed: false },
] as const;

export function SeparationTable({ document, band }: { document: SideDocument; band: number | null }) {
  const turn = document.advice.find(isTurn) ?? null;
  const shown = rows.flatMap((row) => {
    const finding = findingOf(document, row.quantity);
    return finding === null ? [] : [{ ...row, finding }];
  });
  if (shown.length === 0) return <p>{say(statement('no-separation-read'))}</p>;
  return (
    <table class="rows">
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">Figure</span>
          </th>
          <th scope="col">now</th>
          {turn !== null && <th scope="col">after the turn</th>}
        </tr>
      </thead>
      <tbody>
        {shown.map(({ quantity, name, channel, signed, finding }) => {
          const after = turn?.predicts.find((prediction) => prediction.quantity === quantity);
          const picked = band !== null && finding.bands.includes(band);
          return (
            <tr key={quantity} class={picked ? 'picked' : undefined}>
              <th scope="row">
                <button
                  type="button"
                  class="evidence-button"
                  aria-haspopup="dialog"
                  onClick={() => showEvidence(finding, document)}
                >
                  {channel === null ? name : <span class={`channel ${channel}`}>{name}</span>}
                </button>
                {finding.verdict !== 'good' && finding.verdict !== 'info' && (
                  <span class={`verdict ${finding.verdict}`}> {verdictWords[finding.verdict]}</span>
                )}
              </th>
              <td>
                {hasInterval(finding) ? <Interval finding={finding} /> : <Read finding={finding} signed={signed} />}
              </td>
              {turn !== null && <td>{after === undefined ? '' : showNumber(after.value, 1, signed)}</td>}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Read({ finding, signed }: { finding: JudgedFinding; signed: boolean }) {
  if (typeof finding.value === 'string') return <>{finding.value.replace('-', ' ')}</>;
  const { value, uncertainty } = showFigure(finding.value, finding.uncertainty, signed, decimalsAtBench(finding.unit));
  return (
    <>
      {value}{' '}
      <span class="pm">
        {uncertainty === null ? '' : `± ${uncertainty} `}
        {unitSign(finding.unit)}
      </span>
    </>
  );
}
