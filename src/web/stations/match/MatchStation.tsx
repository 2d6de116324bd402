/** Match: parts or figures in; what goes together, what does not, why, and what would help. */
import { useMemo } from 'preact/hooks';
import { answerMatch } from '../../../core/job/stations/match/answer.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { BalanceCard } from './BalanceCard.tsx';
import { LevelsCard } from './LevelsCard.tsx';
import { LoadCard, type Over } from './LoadCard.tsx';
import './match.css';
import { asLookedAt } from '../../../core/job/fittedQuestion.ts';
import { classesInUse, readMatch } from '../../../core/job/stations/match/matchData.ts';
import { FittedQuestions } from '../../recordings/FittedQuestions.tsx';
import { useMatch } from '../../useMatch.ts';
import { PickParts } from './PickParts.tsx';
import { ResonanceCard } from './ResonanceCard.tsx';
import { StepUpCard } from './StepUpCard.tsx';
import { TypedFigures } from './TypedFigures.tsx';
import { Whole } from './Whole.tsx';

export default function MatchStation({ job }: StationProps) {
  const match = useMatch(job.id);
  const { data } = match;
  const { parts, looked, typed, said } = data;
  const reading = useMemo(() => readMatch(asLookedAt(data)), [parts, looked, typed, said]);
  const shown = useStation<{ over: Over }>(job.id, 'match');
  const answer = useMemo(() => answerMatch(reading.input), [reading]);
  const { typical } = data;
  const classes = useMemo(() => classesInUse(data, reading), [typical, reading]);
  return (
    <>
      <PickParts job={job} match={match} />
      <FittedQuestions job={job} match={match} />
      <TypedFigures match={match} />
      {answer.found ? (
        <>
          <Whole document={answer.document} />
          <ResonanceCard input={reading.input} chosen={reading.chosen} document={answer.document} classes={classes} />
          <BalanceCard input={reading.input} document={answer.document} />
          <LoadCard
            input={reading.input}
            document={answer.document}
            over={shown.data.over ?? 'capacitance'}
            onOver={(over) => shown.set({ over })}
          />
          <StepUpCard input={reading.input} />
          <LevelsCard input={reading.input} document={answer.document} />
        </>
      ) : (
        <div class="notice bad" role="alert">
          <p>
            <b>These figures contradict one another:</b> {answer.why}.
          </p>
        </div>
      )}
    </>
  );
}
