/** Advice with its caution, what it promised and what came of it. */
import type { Advice, Prediction } from '../core/advise/document.ts';
import type { AdviceEntry, PredictionCheck } from '../core/job/api.ts';
import { shownFigure } from '../core/words/figure.ts';
import { isSigned, quantityTitle } from '../core/words/quantities.ts';
import { timeText } from './sheet.tsx';

export const cameWords: Readonly<Record<PredictionCheck['came'], string>> = {
  'as-predicted': '✓ as predicted',
  otherwise: '△ otherwise than predicted',
  'cannot-tell': 'cannot be told',
};

const didWords: Readonly<Record<AdviceEntry['outcome']['did'], string>> = {
  open: 'Nobody has noted whether it was done.',
  done: 'Done',
  'not-done': 'Not done',
};

export function Caution({ text }: { text: string }) {
  return (
    <p class="caution">
      <strong>Caution.</strong> {text}
    </p>
  );
}

function Predictions({ predicts }: { predicts: readonly Prediction[] }) {
  if (predicts.length === 0) return null;
  const figures = predicts.map(
    ({ quantity, value, unit }) =>
      `${quantityTitle(quantity)} ${shownFigure(Number(value.toFixed(2)), unit, null, isSigned(quantity))}`,
  );
  return <p>Predicted after it: {figures.join('; ')}.</p>;
}

export function AdviceText({ advice }: { advice: Advice }) {
  return (
    <div class="keep">
      <p>
        <strong>{advice.why}</strong>
      </p>
      {advice.amount === null ? null : (
        <p>Amount: {shownFigure(advice.amount, advice.unit, advice.uncertainty ?? null)}</p>
      )}
      {advice.caution === undefined ? null : <Caution text={advice.caution} />}
    </div>
  );
}

export function AdviceList({ advice }: { advice: readonly Advice[] }) {
  return (
    <>
      {advice.map((move) => (
        <>
          <AdviceText advice={move} />
          <Predictions predicts={move.predicts} />
        </>
      ))}
    </>
  );
}

const orDash = (value: number | null, unit: string): string => (value === null ? '–' : shownFigure(value, unit, null));

function Checks({ checks }: { checks: readonly PredictionCheck[] }) {
  return (
    <div class="wide">
      <table>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col" class="figure">
              Before
            </th>
            <th scope="col" class="figure">
              Predicted
            </th>
            <th scope="col" class="figure">
              Measured
            </th>
            <th scope="col">Came</th>
          </tr>
        </thead>
        <tbody>
          {checks.map((check) => (
            <tr>
              <th scope="row">{quantityTitle(check.quantity)}</th>
              <td class="figure">{orDash(check.before, check.unit)}</td>
              <td class="figure">{shownFigure(Number(check.predicted.toFixed(2)), check.unit, null)}</td>
              <td class="figure">
                {check.measured === null ? '–' : shownFigure(check.measured, check.unit, check.uncertainty)}
              </td>
              <td>
                {cameWords[check.came]}
                {check.came === 'as-predicted' ? null : <div class="note">{check.why}</div>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Each advice of the job in the order given, beside what was measured after it. */
export function AdviceHistory({ entries }: { entries: readonly AdviceEntry[] }) {
  return (
    <>
      {entries.map((entry) => {
        const { did, note, at } = entry.outcome;
        return (
          <section>
            <AdviceText advice={entry.advice} />
            <p class="soft">
              Given {timeText(entry.givenAt)}. {didWords[did]}
              {at === null ? '' : `, noted ${timeText(at)}.`} {note}
            </p>
            {entry.checks.length > 0 ? (
              <>
                <p class="soft">Measured ± uncertainty of the comparison (k = 2):</p>
                <Checks checks={entry.checks} />
              </>
            ) : (
              <>
                <Predictions predicts={entry.advice.predicts} />
                <p class="soft">Nothing was measured after it.</p>
              </>
            )}
          </section>
        );
      })}
    </>
  );
}
