/** Height: what a mm is worth on this arm, other records, the angle to aim at, how it was set, and what was measured. */

import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import { dayHere } from '../../localTime.ts';
import './height.css';
import {
  heightAnswer,
  heightArm,
  measuredAngle,
  riseOf,
  thicknessOf,
} from '../../../core/job/stations/height/heightAnswers.ts';
import type { HeightSet } from '../../../core/job/stations/height/heightData.ts';
import { heightMove } from '../../../core/job/stations/height/heightMove.ts';
import { riseWords, setWords } from '../../../core/job/stations/height/reportLines.ts';
import type { HeightTyped } from '../../../core/job/stations/height.ts';
import { startOf, targetOf } from '../../../core/job/stations/weigh/balance.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { showNumber } from '../../../core/words/number.ts';
import { makeMove, undoMove } from '../../jobState.ts';
import { Fold } from '../../parts/Fold.tsx';
import { useBench } from '../../useBench.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { AngleCard } from './AngleCard.tsx';
import { MeasuredCard } from './MeasuredCard.tsx';
import { SetCard } from './SetCard.tsx';
import { TargetsCard } from './TargetsCard.tsx';
import { ThicknessCard } from './ThicknessCard.tsx';

const MOST_SETS = 30;

export default function HeightStation({ job }: StationProps) {
  const station = useStation<HeightTyped>(job.id, 'height');
  const { data, status } = station;
  const weigh = useStation<WeighTyped>(job.id, 'weigh').data;
  const bench = useBench(job.id, 'height');
  const { set } = station;
  const forceUnit = weigh.forceUnit ?? 'g';
  const { facts: known } = bench;

  const lastForce = weigh.sets?.at(-1);
  const target = targetOf(weigh, startOf(known, weigh.temperature));
  const force =
    lastForce !== undefined
      ? { mn: lastForce.mn, from: 'as last set at Weigh' }
      : target !== null
        ? { mn: target.mn, from: 'as aimed at in Weigh' }
        : null;
  const answer = heightAnswer(data, bench, force?.mn ?? null);

  const riseMm = riseOf(data);
  const thicknessMm = thicknessOf(data);
  const sets = data.sets ?? [];
  const last = sets.at(-1);
  const onSet = (left: boolean): void => {
    if (riseMm === null || thicknessMm === null) return;
    const entry: HeightSet = { at: new Date().toISOString(), riseMm, thicknessMm, mark: data.mark ?? '', left };
    const record = heightMove(entry, last, heightArm(data, known, bench.match), ofWhatIsFitted(job));
    set({
      sets: [...sets, entry].slice(-MOST_SETS),
      ...(left ? {} : { moves: [...(data.moves ?? []), record].slice(-MOST_SETS) }),
    });
    station.setStatus('done');
    const by = last === undefined ? {} : { by: riseMm - last.riseMm };
    const move = { move: 'set-arm-height', station: 'height', note: riseWords(riseMm), step: entry.at } as const;
    if (!left) makeMove(job.id, { ...move, ...by });
  };
  const onUndo = (): void => {
    if (last === undefined) return;
    set({ sets: sets.slice(0, -1), moves: (data.moves ?? []).filter(({ at }) => at !== last.at) });
    station.setStatus('now');
    if (!last.left) undoMove(job.id, last.at);
  };

  return (
    <>
      {last !== undefined && (
        <div class="strip set-strip" role="status">
          <span class={`mark ${status === 'stale' ? 'stale' : 'done'}`}>
            {status === 'stale' ? '↻ look again' : '✓ set'}
          </span>
          <span>
            <b>Last left {setWords(last)}</b>, <time dateTime={last.at}>{dayHere(last.at)}</time>
            {status === 'stale' ? '. Something moved since; the reason is above.' : '.'}
          </span>
          <button type="button" class="button plain" aria-label="Undo setting the height" onClick={onUndo}>
            Undo
          </button>
        </div>
      )}
      {measuredAngle(job) !== null && <MeasuredCard job={job} data={data} bench={bench} set={set} />}
      <div class="do">
        <AngleCard jobId={job.id} known={known} answer={answer} />
        <SetCard
          data={data}
          bench={bench}
          forceUnit={forceUnit}
          ready={riseMm !== null && thicknessMm !== null}
          setBefore={last !== undefined}
          set={set}
          onSet={onSet}
        />
      </div>
      <div class="folds">
        {measuredAngle(job) === null && (
          <Fold title="The angle as measured" answer="not measured">
            <MeasuredCard job={job} data={data} bench={bench} set={set} />
          </Fold>
        )}
        <Fold
          title="Angle to aim at"
          answer={
            answer.found && answer.value.sheet.statedDeg !== null
              ? `${answer.value.sheet.statedDeg.toFixed(1)}° now, by the maker’s statement`
              : 'the maker states none'
          }
        >
          <TargetsCard known={known} answer={answer} />
        </Fold>
        <Fold
          title="Records of other thickness"
          answer={
            answer.found ? `set on ${showNumber(answer.value.thicknessMm, 1)} mm` : 'left out: a length is missing'
          }
        >
          <ThicknessCard data={data} known={known} answer={answer} force={force} set={set} />
        </Fold>
      </div>
    </>
  );
}
