/** What an advice promised beside what the next pass measured. */

import { isTurn } from '../../../core/advise/turn.ts';
import type { Job, PredictionCheck } from '../../../core/job/api.ts';
import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import { unitSign } from '../../../core/words/figure.ts';
import { decimalsAtBench, showFigure, showNumber } from '../../../core/words/number.ts';
import { isSigned, quantityTitle } from '../../../core/words/quantities.ts';
import { Came, surprises } from '../../parts/Came.tsx';
import { ScrollTable } from '../../parts/ScrollTable.tsx';

const measuredText = (measured: number, { quantity, uncertainty, unit }: PredictionCheck) =>
  showFigure(measured, uncertainty, isSigned(quantity), decimalsAtBench(unit));

export function TurnCheck({ job }: { job: Job }) {
  const fitted = ofWhatIsFitted(job);
  const ours = new Set(fitted.map(({ id }) => id));
  const checked = job.advice
    .filter((entry) => isTurn(entry.advice) && entry.checks.length > 0 && ours.has(entry.captureId))
    .at(-1);
  if (checked === undefined) return null;
  const number = (id: string | null) => fitted.findIndex((capture) => capture.id === id) + 1;
  return (
    <section class="card" aria-label="Predicted and measured">
      <h3>
        Did it come as predicted? Pass {number(checked.captureId)} said, pass {number(checked.checkedBy)} measured
      </h3>
      <ScrollTable name="Figure by figure" heads={[{ unseen: 'Figure' }, 'before', 'predicted', 'measured', 'came']}>
        {checked.checks.map((check) => (
          <tr key={check.quantity}>
            <th scope="row">{quantityTitle(check.quantity)}</th>
            <td>{check.before === null ? '' : showNumber(check.before, 1, isSigned(check.quantity))}</td>
            <td>{showNumber(check.predicted, 1, isSigned(check.quantity))}</td>
            <td>
              {check.measured === null ? 'not measured' : measuredText(check.measured, check).value}{' '}
              <span class="pm">
                {check.measured === null || check.uncertainty === null
                  ? ''
                  : `± ${measuredText(check.measured, check).uncertainty} `}
                {unitSign(check.unit)}
              </span>
            </td>
            <td>
              <Came came={check.came} />
            </td>
          </tr>
        ))}
      </ScrollTable>
      {surprises(checked.checks).map((why) => (
        <p class="soft" key={why}>
          {why}
        </p>
      ))}
    </section>
  );
}
