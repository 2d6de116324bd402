/** Weigh: float, zero, set; dial against gauge against gauge at record height; the start of the anti-skating. */
import './weigh.css';
import { weighSteps } from '../../../core/advise/orderOfWork.ts';
import { forceStanding } from '../../../core/job/stations/weigh/forceStanding.ts';
import { inForceUnit } from '../../../core/job/stations/weigh/forceUnit.ts';
import { movedHereSays, reasonsToWeigh, skatingSays } from '../../../core/job/stations/weigh/kept.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
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
import { weighActs } from './weighActs.ts';

export default function WeighStation({ job }: StationProps) {
  const station = useStation<WeighTyped>(job.id, 'weigh');
  const { data, status, set } = station;
  const bench = useBench(job.id, 'weigh');
  const { facts: known, match } = bench;
  // closing the station says that all of it was looked at
  const movedHere = status !== 'done' ? (data.movedHere ?? null) : null;
  const reasons = reasonsToWeigh({ ...job.stations.weigh, status }, movedHere);
  const standing = forceStanding(data, bench, reasons);
  const { start, target, dialMn, now, travel } = standing;
  const acts = weighActs(job.id, station, standing);
  const last = data.sets?.at(-1);
  const ticked = data.ticked ?? [];
  return (
    <>
      <SetStrip
        last={last}
        stale={reasons.length > 0}
        movedHere={movedHere === null ? null : movedHereSays(movedHere)}
        onUndo={acts.undoSet}
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
          onUnit={(next) => set(inForceUnit(data, next))}
          travel={travel}
        />
        <div class="stack">
          <TipCard
            unit={data.forceUnit ?? 'g'}
            known={known}
            standing={standing}
            setBefore={last !== undefined}
            setHolds={last !== undefined && reasons.length === 0}
            onSet={acts.setForce}
          />
          <GaugeForm
            data={data}
            known={known}
            forceMn={standing.nowMn?.value ?? target?.mn ?? null}
            set={set}
            onReading={(gauge) => set({ gauge, readUnder: reasons })}
          />
        </div>
      </div>
      <div class="folds">
        <Fold
          title="Order of work"
          answer={`${weighSteps.filter(({ id }) => ticked.includes(id)).length} of ${weighSteps.length} done`}
        >
          <StepsCard
            ticked={ticked}
            onTicked={(next) => set({ ticked: next })}
            onMoved={acts.moved}
            moved={acts.lastMoved}
            onTakenBack={acts.undoMoved}
          />
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
            stand={standing.stand}
          />
        </Fold>
        <ArmFigures data={data} bench={bench} set={set} />
        <Fold title="Anti-skating" answer={data.skatingSet ? skatingSays(data.skatingSet) : 'where to start'}>
          <SkatingCard
            job={job}
            known={known}
            match={match}
            typed={data.skating ?? {}}
            force={standing.pullFor}
            kept={data.skatingSet ?? null}
            set={set}
            onSet={acts.setSkating}
            onUndo={acts.undoSkating}
          />
        </Fold>
      </div>
    </>
  );
}
