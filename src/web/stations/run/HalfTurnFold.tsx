/** Record or platter: two recordings of this job with half a turn of the record between, where eccentricity is shown. */
import type { SideDocument } from '../../../core/advise/document.ts';
import type { Job } from '../../../core/job/api.ts';
import { type HalfTurnTyped, halfTurnAnswer, turnsOf } from '../../../core/job/stations/run/halfTurn.ts';
import type { RunTyped } from '../../../core/job/stations/run.ts';
import { figureLines } from '../../../core/words/figureLines.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { timeHere } from '../../localTime.ts';
import { Select } from '../../parts/Choice.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { useStation } from '../../useStation.ts';

/** @param shown id of the recording whose figures are shown; null until the server has it */
export function HalfTurnFold({
  job,
  document,
  shown,
}: {
  readonly job: Job;
  readonly document: SideDocument;
  readonly shown: string | null;
}) {
  const station = useStation<RunTyped>(job.id, 'run');
  if (turnsOf(document).length === 0 || shown === null) return null;
  const typed: HalfTurnTyped = station.data.halfTurn ?? {};
  const record = document.record?.key;
  const others = job.captures.filter(
    (one) => one.id !== shown && one.record?.key === record && one.setAside === null && turnsOf(one).length > 0,
  );
  const first = typed.second === shown ? (typed.first ?? '') : '';
  const answer = first === '' ? null : halfTurnAnswer(typed, job.captures);
  return (
    <Fold
      title="Record or platter: half a turn"
      answer={answer?.found === true ? `platter ${figureLines(answer.finding)[0]}` : undefined}
    >
      <p>{say(statement('half-turn-how'))}</p>
      {others.length === 0 ? (
        <p class="soft">{say(statement('half-turn-second'))}</p>
      ) : (
        <Select
          label="Half a turn before the recording shown"
          value={first}
          options={[
            { value: '', label: 'none of them' },
            ...others.map(({ id, file, heardAt }) => ({ value: id, label: `${file}, ${timeHere(heardAt)}` })),
          ]}
          onValue={(id) => station.set({ halfTurn: id === '' ? {} : { first: id, second: shown } })}
        />
      )}
      {answer?.found === false && <p role="alert">{say(answer.why)}</p>}
      {answer?.found === true && <FindingList findings={[answer.finding]} />}
    </Fold>
  );
}
