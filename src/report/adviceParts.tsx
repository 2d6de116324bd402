/** Advice with its caution, what it promised and what came of it. */
import type { Advice, Prediction } from '../core/advise/document.ts';
import { shownFigure } from '../core/words/figure.ts';
import { isSigned, quantityTitle } from '../core/words/quantities.ts';
import { say, statement } from '../core/words/statement.ts';

function Caution({ text }: { text: string }) {
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
  return <p>{say(statement('predicted-after', { figures: figures.join('; ') }))}</p>;
}

function AdviceText({ advice }: { advice: Advice }) {
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
