/** Match: parts or figures in; what goes together, what does not, why, and what would help. */

import { useMemo } from 'preact/hooks';
import { limitsOf } from '../../../core/job/shop.ts';
import { answerMatch, findingOf, gravest } from '../../../core/job/stations/match/answer.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Fold } from '../../parts/Fold.tsx';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { BalanceCard } from './BalanceCard.tsx';
import { HeardCompliance } from './HeardCompliance.tsx';
import { LevelsCard } from './LevelsCard.tsx';
import { LoadCard, type Over } from './LoadCard.tsx';
import './match.css';
import type { MatchDocument } from '../../../core/advise/match.ts';
import { asLookedAt } from '../../../core/job/fittedQuestion.ts';
import { classesInUse, readMatch } from '../../../core/job/stations/match/matchData.ts';
import { titleWithin } from '../../../core/job/stations/match/words.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { verdictWords } from '../../../core/words/quantities.ts';
import { FittedQuestion, Fittings, lookedAt } from '../../recordings/FittedQuestions.tsx';
import { StylusForm } from '../../recordings/StylusForm.tsx';
import { jobAndShop } from '../../shop.ts';
import { useMatch } from '../../useMatch.ts';
import { NextMove } from './NextMove.tsx';
import { PickParts } from './PickParts.tsx';
import { ResonanceCard } from './ResonanceCard.tsx';
import { StepUpCard } from './StepUpCard.tsx';
import { TypedFigures } from './TypedFigures.tsx';
import { Whole } from './Whole.tsx';

/** "9.8 ± 0.9 Hz ✓": a figure in the line of its fold. */
function gistOf(document: MatchDocument, quantity: string) {
  const finding = findingOf(document, quantity);
  if (finding === null) return 'left out: a figure is missing';
  const [sign, ...verdict] = verdictWords[finding.verdict].split(' ');
  const figure = shownFigure(finding.value, finding.unit, finding.uncertainty);
  return (
    <>
      {quantity === 'arm-resonance' ? figure : `${titleWithin(quantity)} ${figure}`} {sign}
      <span class="unseen"> {verdict.join(' ')}</span>
    </>
  );
}

export default function MatchStation({ job }: StationProps) {
  const match = useMatch(job.id);
  const { data } = match;
  const { parts, looked, typed, said } = data;
  const reading = useMemo(() => readMatch(asLookedAt(data)), [parts, looked, typed, said]);
  const shown = useStation<{ over: Over }>(job.id, 'match');
  const { limits } = limitsOf(jobAndShop(job.id));
  const input = useMemo(() => ({ ...reading.input, limits }), [reading, JSON.stringify(limits)]);
  const answer = useMemo(() => answerMatch(input, limits), [input]);
  const verdict = answer.found ? gravest(answer.document.findings) : 'info';
  const bad = answer.found ? answer.document.findings.find((one) => one.verdict === 'bad')?.quantity : undefined;
  const asked = lookedAt(data);
  const { typical } = data;
  const classes = useMemo(() => classesInUse(data, reading), [typical, reading]);
  return (
    <>
      {answer.found ? (
        <Whole document={answer.document}>
          {asked.length > 0 ? (
            <FittedQuestion job={job} match={match} />
          ) : (
            <NextMove job={job} match={match} judged={verdict !== 'info'} bad={bad} />
          )}
        </Whole>
      ) : (
        <div class="notice bad" role="alert">
          <p>{say(statement('figures-contradict', { why: answer.why }))}</p>
        </div>
      )}
      <PickParts job={job} match={match} />
      <Fittings job={job} match={match} />
      <div class="folds">
        <TypedFigures match={match} />
        <StylusForm job={job} />
        {answer.found && (
          <>
            <Fold title="Arm resonance" answer={gistOf(answer.document, 'arm-resonance')}>
              <ResonanceCard input={input} chosen={reading.chosen} document={answer.document} classes={classes} />
              <HeardCompliance job={job} input={input} match={match} />
            </Fold>
            <Fold title="Counterweight and force" answer={gistOf(answer.document, 'counterweight-position')}>
              <BalanceCard input={input} document={answer.document} />
            </Fold>
            <Fold title="Load" answer={gistOf(answer.document, 'load-deviation-20khz')}>
              <LoadCard
                input={input}
                document={answer.document}
                over={shown.data.over ?? 'capacitance'}
                onOver={(over) => shown.set({ over })}
              />
            </Fold>
            {reading.input.principle === 'moving-coil' && (
              <Fold title="Step-up transformer" answer="which ratio suits">
                <StepUpCard input={input} />
              </Fold>
            )}
            <Fold title="Levels and noise" answer={gistOf(answer.document, 'headroom')}>
              <LevelsCard input={input} document={answer.document} />
            </Fold>
          </>
        )}
      </div>
    </>
  );
}
