/** What an advice promised beside what the next pass measured. */

import { isTurn } from '../../../core/advise/turn.ts';
import type { Job, PredictionCheck } from '../../../core/job/api.ts';
import { figureOf } from '../../../core/job/checkAdvice.ts';
import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import { shownInterval, unitSign } from '../../../core/words/figure.ts';
import { decimalsAtBench, showFigure, showNumber } from '../../../core/words/number.ts';
import { isSigned, quantityTitle } from '../../../core/words/quantities.ts';
import { Came, surprises } from '../../parts/Came.tsx';
import { ScrollTable } from '../../parts/ScrollTable.tsx';

const plain = ({ quantity }: PredictionCheck, value: number) => showNumber(value, 1, isSigned(quantity));

function Measured({ check: { quantity, uncertainty, unit }, measured }: { check: PredictionCheck; measured: number }) {
  const shown = showFigure(measured, uncertainty, isSigned(quantity), decimalsAtBench(unit));
  return (
    <>
      {shown.value}{' '}
      <span class="pm">
        {uncertainty === null ? '' : `± ${shown.uncertainty} `}
        {unitSign(unit)}
      </span>
    </>
  );
}

export function TurnCheck({ job }: { job: Job }) {
  const fitted = ofWhatIsFitted(job);
  const ours = new Set(fitted.map(({ id }) => id));
  const checked = job.advice
    .filter((entry) => isTurn(entry.advice) && entry.checks.length > 0 && ours.has(entry.captureId))
    .at(-1);
  if (checked === undefined) return null;
  /** "at least 23.6 dB", where a recording bounds the figure only */
  const boundsOf = ({ quantity, unit }: PredictionCheck, id: string | null): string | null => {
    const capture = job.captures.find((one) => one.id === id);
    const finding = capture === undefined ? undefined : figureOf(capture, quantity, unit);
    return finding === undefined ? null : shownInterval(finding.low, finding.high, unit);
  };
  const number = (id: string | null) => fitted.findIndex((capture) => capture.id === id) + 1;
  return (
    <section class="card" aria-label="Predicted and measured">
      <h3>
        Did it come as predicted? Pass {number(checked.captureId)} said, pass {number(checked.checkedBy)} measured
      </h3>
      <ScrollTable name="Figure by figure" heads={[{ unseen: 'Figure' }, 'before', 'predicted', 'measured']}>
        {checked.checks.map((check) => (
          <tr key={check.quantity}>
            <th scope="row">{quantityTitle(check.quantity)}</th>
            <td>{check.before === null ? '' : (boundsOf(check, checked.captureId) ?? plain(check, check.before))}</td>
            <td>{plain(check, check.predicted)}</td>
            <td>
              {check.measured === null
                ? 'not measured'
                : (boundsOf(check, checked.checkedBy) ?? <Measured check={check} measured={check.measured} />)}
              <div>
                <Came came={check.came} />
              </div>
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
