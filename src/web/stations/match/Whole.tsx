/** The answer of the station in one sentence, what would help, and what cannot be said yet. */

import type { ComponentChildren } from 'preact';
import type { Advice } from '../../../core/advise/document.ts';
import type { MatchDocument } from '../../../core/advise/match.ts';
import { gravest, withheldFor } from '../../../core/job/stations/match/answer.ts';
import { adviceGist, titlesOf, titleWithin, wholeTold } from '../../../core/job/stations/match/words.ts';
import { say } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { Findings } from './Findings.tsx';

/** Shown before anything is opened. */
const MOST_AGAINST = 2;

const isBad = ({ findings }: MatchDocument, quantity: string): boolean =>
  findings.some((one) => one.quantity === quantity && one.verdict === 'bad');

export interface WholeProps {
  readonly document: MatchDocument;
  /** the next move, behind what would help */
  readonly children?: ComponentChildren;
}

export function Whole({ document, children }: WholeProps) {
  const verdict = gravest(document.findings);
  // the vertical resonance is the resonance, told and counted once
  const judged = document.findings.filter((one) => one.quantity !== 'arm-resonance-vertical');
  const count = (wanted: string): number => judged.filter((one) => one.verdict === wanted).length;
  const withheld = withheldFor(document);
  const against = judged.filter((one) => one.verdict !== 'good' && one.verdict !== 'info').map((one) => one.quantity);
  // what is outside its limits first
  const gravestFirst = [...against].sort((a, b) => Number(isBad(document, b)) - Number(isBad(document, a)));
  const [worst, more] = [gravestFirst.slice(0, MOST_AGAINST), gravestFirst.slice(MOST_AGAINST)];
  return (
    <section class="card whole" aria-label="Whether these go together">
      <p class="turn" role="status">
        {say(wholeTold(verdict, withheld.length > 0))}
      </p>
      {verdict !== 'info' && (
        <p class="counts">
          <span class="verdict good">✓ {count('good')} within limits</span>
          {count('undecided') > 0 && <span class="verdict undecided">? {count('undecided')} undecided</span>}
          {count('adjust') > 0 && <span class="verdict adjust">△ {count('adjust')} worth adjusting</span>}
          {count('bad') > 0 && <span class="verdict bad">✕ {count('bad')} outside limits</span>}
        </p>
      )}
      {against.length > 0 && (
        <>
          <h3>What is against it</h3>
          <Findings document={document} quantities={worst} withNote={false} />
          {more.length > 0 && (
            <Fold title={`${more.length} more`}>
              <Findings document={document} quantities={more} withNote={false} />
            </Fold>
          )}
        </>
      )}
      {document.advice.length > 0 && (
        <>
          <h3 class={against.length > 0 ? 'more' : undefined}>What would help</h3>
          <ul class="advice-list">
            {document.advice.map((advice) => (
              <AdviceItem key={advice.why} advice={advice} />
            ))}
          </ul>
        </>
      )}
      {children}
      {withheld.length > 0 && (
        <details class="withheld">
          <summary>
            {withheld.length === 1 ? 'Something is' : `${withheld.length} things are`} left out for want of a figure
          </summary>
          <ul>
            {withheld.map(({ why, quantities }) => (
              <li key={why}>
                {titlesOf(quantities)}: {why}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function AdviceItem({ advice }: { advice: Advice }) {
  return (
    <li>
      <details class="fold">
        <summary>
          <b>{adviceGist(advice)}</b>
        </summary>
        <p>{advice.why}</p>
        {advice.predicts.length > 0 && (
          <span class="predicts">
            <span class="soft">then</span>
            {advice.predicts.map((prediction) => (
              <span key={prediction.quantity} class="prediction">
                {titleWithin(prediction.quantity)}{' '}
                <Figure value={prediction.value} unit={prediction.unit} uncertainty={null} />
              </span>
            ))}
          </span>
        )}
        {advice.caution !== undefined && <Caution>{advice.caution}</Caution>}
      </details>
    </li>
  );
}
