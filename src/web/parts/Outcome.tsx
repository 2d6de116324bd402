/** What the hand did about advice: kept beside the advice, what the move makes stale is marked, and both can be taken back. */

import { isTurn } from '../../core/advise/turn.ts';
import { madeAtCard } from '../../core/job/adviceAnswered.ts';
import { followed, moveOfAdvice } from '../../core/job/adviceMoves.ts';
import type { AdviceEntry } from '../../core/job/api.ts';
import { stationTitles } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
import { job, makeMove, sayOutcome, undoMove } from '../jobState.ts';
import { stationPath } from '../route.ts';

export interface Way {
  /** on the button */
  readonly says: string;
  made(): void;
}

/** It is not said any more that it was done, nor that it was left. */
function takeBack(jobId: string, { id, outcome }: AdviceEntry): void {
  sayOutcome(jobId, id, { did: 'open' });
  if (outcome.did === 'done') undoMove(jobId, id);
}

export interface OutcomeProps {
  readonly jobId: string;
  readonly entry: AdviceEntry;
  /** ways of doing it, the usual one first */
  readonly ways: readonly Way[];
  /** another button is the main one where not */
  readonly main?: boolean;
}

export function Outcome({ jobId, entry, ways, main = true }: OutcomeProps) {
  const did = ({ made }: Way): void => {
    made();
    // the button that was pressed is gone with the advice
    document.querySelector<HTMLElement>('main h2')?.focus({ preventScroll: true });
  };
  if (entry.outcome.did !== 'open') {
    return (
      <p class="soft" role="status">
        {entry.outcome.did === 'done'
          ? say(statement('done-record-next', { did: entry.outcome.note }))
          : say(statement('left-as-it-was'))}{' '}
        <TakeBack jobId={jobId} entry={entry} />
      </p>
    );
  }
  return (
    <fieldset class="outcome">
      <legend>When it is done</legend>
      <div class="buttons">
        {ways.map((way, i) => (
          <button
            key={way.says}
            type="button"
            class={main && i === 0 ? 'button main' : 'button'}
            onClick={() => did(way)}
          >
            {way.says}
          </button>
        ))}
        <button type="button" class="button" onClick={() => sayOutcome(jobId, entry.id, { did: 'not-done' })}>
          Left as it is
        </button>
      </div>
    </fieldset>
  );
}

/** The button; of a move that was made at its own station's card, the way there, where it is taken back. */
export function TakeBack({ jobId, entry }: { jobId: string; entry: AdviceEntry }) {
  const open = job.value;
  const at = isTurn(entry.advice) ? 'tilt' : followed[entry.advice.action]?.station;
  if (open !== null && at !== undefined && madeAtCard(entry, open))
    return <a href={stationPath(jobId, at)}>Made at {stationTitles[at].title}</a>;
  return (
    <button type="button" class="button plain" onClick={() => takeBack(jobId, entry)}>
      Undo
    </button>
  );
}

/** Of advice that is followed in one way; nothing for what moves nothing, or before the server has it. */
export function AdviceOutcome({
  jobId,
  entry,
  main,
}: Pick<OutcomeProps, 'jobId' | 'main'> & { entry: AdviceEntry | undefined }) {
  const move = entry === undefined ? null : moveOfAdvice(entry.advice, entry.id);
  if (entry === undefined || move === null) return null;
  const { says, did } = followed[entry.advice.action];
  const made = (): void => {
    sayOutcome(jobId, entry.id, { did: 'done', note: did });
    makeMove(jobId, move);
  };
  return <Outcome jobId={jobId} entry={entry} ways={[{ says, made }]} main={main} />;
}
