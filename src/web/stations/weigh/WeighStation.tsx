/** Weigh: float, zero, set; dial against gauge against gauge at record height; the start of the anti-skating. */
import { statement } from '../../../core/words/statement.ts';
import './weigh.css';
import { weighSteps } from '../../../core/advise/orderOfWork.ts';
import type { AntiSkatingSetting } from '../../../core/advise/skatingSide.ts';
import { type FactName, factFields } from '../../../core/job/fields/factFields.ts';
import { type ForceUnit, forceWords, withUnit } from '../../../core/job/fields/force.ts';
import type { MoveName } from '../../../core/job/moves.ts';
import { type Answer, none } from '../../../core/job/stations/answer.ts';
import {
  type Spread,
  standOf,
  startOf,
  type Travel,
  targetOf,
  travelOf,
} from '../../../core/job/stations/weigh/balance.ts';
import { forceMove } from '../../../core/job/stations/weigh/forceMove.ts';
import { dialOf, findingsOf, weighedOf } from '../../../core/job/stations/weigh/gauge.ts';
import {
  keptSetting,
  movedHereSays,
  reasonAtWeigh,
  reasonsToWeigh,
  settingNote,
  skatingSays,
} from '../../../core/job/stations/weigh/kept.ts';
import type { ForceSet } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { makeMove, undoMove } from '../../jobState.ts';
import { Fold } from '../../parts/Fold.tsx';
import { useBench } from '../../useBench.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { ArmFigures } from './ArmFigures.tsx';
import { GaugeForm } from './GaugeForm.tsx';
import { SetStrip } from './SetStrip.tsx';
import { SkatingCard } from './SkatingCard.tsx';
import { StartCard } from './StartCard.tsx';
import { StepsCard } from './StepsCard.tsx';
import { TipCard } from './TipCard.tsx';
import { TravelCard } from './TravelCard.tsx';

const FLOATING: Spread = { value: 0, uncertainty: null };
const MOST_SETS = 30;

/** Every bare force gets the unit that it stood for, so that the choice changes nothing that was typed. */
function changeUnit(data: WeighTyped, unit: ForceUnit): WeighTyped {
  const was = data.forceUnit ?? 'g';
  const typed = Object.entries(data.facts ?? {}).map(([name, text]) => {
    return [name, factFields[name as FactName]?.unit === 'mN' ? withUnit(text, was) : text];
  });
  return {
    forceUnit: unit,
    facts: Object.fromEntries(typed),
    ...(data.target === undefined ? {} : { target: withUnit(data.target, was) }),
    ...(data.dial === undefined ? {} : { dial: withUnit(data.dial, was) }),
  };
}

export default function WeighStation({ job }: StationProps) {
  const station = useStation<WeighTyped>(job.id, 'weigh');
  const { data, status } = station;
  const { set } = station;
  const bench = useBench(job.id, 'weigh');
  const { facts: known, match } = bench;
  const unit = data.forceUnit ?? 'g';

  const start = startOf(known, data.temperature);
  const target = targetOf(data, start);
  const dialMn = dialOf(data);
  const weighed = weighedOf(data, known);
  // closing the station says that all of it was looked at
  const movedHere = status !== 'done' ? (data.movedHere ?? null) : null;
  const reasons = reasonsToWeigh({ ...job.stations.weigh, status }, movedHere);
  const old = reasons.some((key) => !(data.readUnder ?? []).includes(key));
  const now = weighed.found && !old ? weighed.value : null;
  const findings = now === null || target === null ? null : findingsOf(data, known, now, target);
  const nowSpread = now === null ? null : { value: now.force.force.mn, uncertainty: now.force.uncertaintyMn };
  const sets = data.sets ?? [];
  const last = sets.at(-1);
  const pullFor =
    nowSpread !== null
      ? { mn: nowSpread.value, from: 'as weighed' }
      : last !== undefined && reasons.length === 0
        ? { mn: last.mn, from: 'as last set' }
        : target !== null
          ? { mn: target.mn, from: 'as aimed at' }
          : null;

  const travel: Answer<Travel> =
    target === null ? none(statement('no-force-to-set')) : travelOf(known, FLOATING, target.mn);

  const onSet = (by: ForceSet['by'], left: boolean): void => {
    const mn = by === 'gauge' ? nowSpread?.value : dialMn;
    if (mn === undefined || mn === null || target === null) return;
    const entry: ForceSet = {
      at: new Date().toISOString(),
      by,
      mn,
      uncertaintyMn: by === 'gauge' ? (nowSpread?.uncertainty ?? null) : null,
      targetMn: target.mn,
      dialMn,
      calibrated: now?.calibrated === true,
      left,
    };
    // the reading now stands with the force that was left; the next one is typed anew
    set({
      sets: [...sets, entry].slice(-MOST_SETS),
      ...(left ? {} : { moves: [...(data.moves ?? []), forceMove(entry, last)].slice(-MOST_SETS) }),
      gauge: { ...data.gauge, reading: '', secondReading: '' },
      movedHere: null,
    });
    station.setStatus('done');
    const size = last === undefined ? {} : { by: mn - last.mn };
    if (!left) makeMove(job.id, { move: 'set-force', station: 'weigh', note: forceWords(mn), step: entry.at, ...size });
  };
  const onUndoSet = (): void => {
    if (last === undefined) return;
    set({ sets: sets.slice(0, -1), moves: (data.moves ?? []).filter(({ at }) => at !== last.at) });
    station.setStatus('now');
    if (!last.left) undoMove(job.id, last.at);
  };
  const onMoved = (move: MoveName): void => {
    // a move made here does not make Weigh itself stale in the job: its page looks after that
    set({ movedHere: reasonAtWeigh(move) === undefined ? null : { move, at: new Date().toISOString() } });
    if (status === 'done') station.setStatus('now');
    makeMove(job.id, { move, station: 'weigh' });
  };
  const onSkating = (setting: AntiSkatingSetting): void => {
    const at = new Date().toISOString();
    set({ skatingSet: { at, setting: keptSetting(setting.says) } });
    makeMove(job.id, { move: 'set-skating', station: 'weigh', note: settingNote(setting), step: at });
  };
  const onUndoSkating = (): void => {
    if (data.skatingSet === undefined || data.skatingSet === null) return;
    set({ skatingSet: null });
    undoMove(job.id, data.skatingSet.at);
  };

  return (
    <>
      <SetStrip
        last={last}
        stale={reasons.length > 0}
        movedHere={movedHere === null ? null : movedHereSays(movedHere)}
        onUndo={onUndoSet}
      />
      <div class="do">
        <StartCard
          data={data}
          known={known}
          start={start}
          target={target}
          dialMn={dialMn}
          weighed={now === null ? null : { mn: now.force.force.mn, uncertaintyMn: now.force.uncertaintyMn }}
          set={set}
          onUnit={(next) => set(changeUnit(data, next))}
          travel={travel}
        />
        <div class="stack">
          <TipCard
            unit={unit}
            known={known}
            target={target}
            weighed={weighed}
            findings={findings}
            rest={nowSpread === null || target === null ? null : travelOf(known, nowSpread, target.mn)}
            dialMn={dialMn}
            old={old}
            setBefore={last !== undefined}
            onSet={onSet}
          />
          <GaugeForm
            data={data}
            known={known}
            forceMn={nowSpread?.value ?? target?.mn ?? null}
            set={set}
            onReading={(gauge) => set({ gauge, readUnder: reasons })}
          />
        </div>
      </div>
      <div class="folds">
        <Fold
          title="Order of work"
          answer={`${weighSteps.filter(({ id }) => data.ticked?.includes(id)).length} of ${weighSteps.length} done`}
        >
          <StepsCard ticked={data.ticked ?? []} onTicked={(ticked) => set({ ticked })} onMoved={onMoved} />
        </Fold>
        <Fold
          title="Counterweight"
          answer={travel.found ? 'its place, and what each turn brings' : 'left out: a figure is missing'}
        >
          <TravelCard
            jobId={job.id}
            known={known}
            match={match}
            target={target}
            travel={travel}
            stand={
              target === null ? none(statement('no-force-to-set')) : standOf(known, match, data.floatsAt, target.mn)
            }
          />
        </Fold>
        <ArmFigures data={data} bench={bench} set={set} />
        <Fold title="Anti-skating" answer={data.skatingSet ? skatingSays(data.skatingSet) : 'where to start'}>
          <SkatingCard
            job={job}
            known={known}
            match={match}
            typed={data.skating ?? {}}
            force={pullFor}
            kept={data.skatingSet ?? null}
            set={set}
            onSet={onSkating}
            onUndo={onUndoSkating}
          />
        </Fold>
      </div>
    </>
  );
}
