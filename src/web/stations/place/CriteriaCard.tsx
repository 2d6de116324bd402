/** What each criterion would ask of this arm: the published closed form, and the exact law's own optimum beside it. */

import type { CriterionRow } from '../../../core/geometry/chosenArm.ts';
import { criteria } from '../../../core/geometry/criteria.ts';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { radiiText } from '../../../core/geometry/nullWords.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, sayAll, statement } from '../../../core/words/statement.ts';
import { ScrollTable } from '../../parts/ScrollTable.tsx';
import { docsPath } from '../../route.ts';

/** What is set by hand comes no closer: mm, degrees. */
const HAND = 0.1;
const isBelowHand = ({ overhangMm, offsetDeg }: { overhangMm: number; offsetDeg: number }): boolean =>
  Math.abs(overhangMm) < HAND && Math.abs(offsetDeg) < HAND;

/** How far the closed form is off the exact law. */
function differenceWords({ exact }: CriterionRow): string {
  if (exact === null) return say(statement('no-exact-near-closed'));
  const { figures, difference } = exact;
  const { overhangMm, offsetDeg, peakDistortionPercent } = difference;
  return sayAll([
    statement('exact-differs', {
      nulls: radiiText(figures.nullPointsMm, 2),
      overhangMm,
      offsetDeg,
      peak: showNumber(peakDistortionPercent, 3, true),
    }),
    statement(isBelowHand(difference) ? 'exact-below-hand' : 'exact-worth-knowing'),
  ]);
}

const shortOf = (criterion: string): string => criteria.find(({ name }) => name === criterion)?.short ?? criterion;

export function CriteriaCard({ place }: { place: PlaceDocument }) {
  if (place.criteria.length === 0) return null;
  const chosen = place.criteria.find(({ criterion }) => criterion === place.criterion);
  return (
    <section class="card" id="place-criteria" aria-label="What each criterion asks for">
      <h3 class="strong">What each criterion asks for</h3>
      {chosen !== undefined && (
        <p>
          {place.method === 'closed-form'
            ? say(statement('closed-form-of', { criterion: shortOf(chosen.criterion) }))
            : say(statement('figures-within-limits'))}{' '}
          {differenceWords(chosen)}
        </p>
      )}
      <ScrollTable
        name="Criteria"
        class="rows criteria"
        heads={[
          'criterion',
          'overhang, mm',
          'offset, °',
          'null points, mm',
          'highest, %',
          'rms, %',
          'exact law: null points, mm',
          'overhang differs by, mm',
        ]}
      >
        {place.criteria.map(({ criterion, source, closedForm, exact }) => (
          <tr key={criterion} class={criterion === place.criterion ? 'picked' : undefined}>
            <th scope="row">
              {shortOf(criterion)}
              {criterion === place.criterion && <span class="unseen"> (chosen)</span>}
              <span class="soft small source">{source}</span>
            </th>
            <td>{showNumber(closedForm.overhangMm, 2)}</td>
            <td>{showNumber(closedForm.offsetDeg, 2)}</td>
            <td>{radiiText(closedForm.nullPointsMm, 2)}</td>
            <td>{closedForm.peakDistortionPercent.toFixed(3)}</td>
            <td>{closedForm.rmsDistortionPercent.toFixed(3)}</td>
            <td>{exact === null ? 'none' : radiiText(exact.figures.nullPointsMm, 2)}</td>
            <td>{exact === null ? '' : showNumber(exact.difference.overhangMm, 3, true)}</td>
          </tr>
        ))}
      </ScrollTable>
      <details>
        <summary>How these figures are found</summary>
        <pre class="formulas">{`angle of arm to groove   sin θ(r) = (r² + L² − d²) / (2 r L)
tracking error           ε(r) = θ(r) − offset
null points              n₁ n₂ = L² − d²      n₁ + n₂ = 2 L sin offset
second harmonic          v tan ε / V,  V = 2π (rpm / 60) r

L effective length, d spindle to pivot, overhang L − d, v peak velocity of the groove`}</pre>
        <p class="soft small">{say(statement('criteria-weigh'))}</p>
        {criteria
          .filter(({ name }) => place.criteria.some(({ criterion }) => criterion === name))
          .map(({ name, short, says }) => (
            <p class="small" key={name}>
              <b>{short}</b>: {says}.
            </p>
          ))}
        <p class="small">
          <a href={docsPath('methods/arm-geometry')}>Formula, source and limits</a>
        </p>
      </details>
    </section>
  );
}
