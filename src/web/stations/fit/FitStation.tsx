/** Fit: leads on their pins, screws of the right length, the hardware's mass, and the order of work. */
import { makeMove, undoMove } from '../../jobState.ts';
import { Fold } from '../../parts/Fold.tsx';
import { Photographs } from '../../photographs/Photographs.tsx';
import { useMatch } from '../../useMatch.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import './fit.css';
import { CHECK_LEADS, fitSteps } from '../../../core/advise/orderOfWork.ts';
import { checkWiring } from '../../../core/advise/wiring.ts';
import { quantityText } from '../../../core/job/fields/quantity.ts';
import { notLooked, wiringOf } from '../../../core/job/stations/fit/fitData.ts';
import { findHardware } from '../../../core/job/stations/fit/hardwareFound.ts';
import { choiceFor, stackOf } from '../../../core/job/stations/fit/screwStack.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { HardwareMass } from './HardwareMass.tsx';
import { Leads } from './Leads.tsx';
import { NextStep, stepsDone } from './NextStep.tsx';
import { Screws } from './Screws.tsx';
import { WorkOrder } from './WorkOrder.tsx';

function leadsGist(data: Partial<FitTyped>): string {
  const wiring = wiringOf(data);
  if (wiring === null || notLooked(data).length > 0) return 'not checked yet';
  const { correct, faults } = checkWiring(wiring);
  return correct ? '✓ each lead on its own pin' : `✕ ${faults[0].title}`;
}

/** Each lead on its own pin is the step of checking them: it is ticked once, in either place. */
function withLeadsStep(data: Partial<FitTyped>, patch: FitTyped): FitTyped {
  const after = { ...data, ...patch };
  const wiring = wiringOf(after);
  const right = wiring !== null && notLooked(after).length === 0 && checkWiring(wiring).correct;
  const others = (data.steps ?? []).filter((id) => id !== CHECK_LEADS);
  return { ...patch, steps: right ? [...others, CHECK_LEADS] : others };
}

export default function FitStation({ job }: StationProps) {
  const station = useStation<FitTyped>(job.id, 'fit');
  const match = useMatch(job.id);
  const { data } = station;
  const { chosen, input } = match.reading;
  const set = (patch: FitTyped): void => station.set(patch.leads === undefined ? patch : withLeadsStep(data, patch));
  const choice = choiceFor(stackOf(data, chosen));
  const hardware = findHardware(data, chosen);
  const onRewired = (): void => {
    const step = new Date().toISOString();
    set({ rewired: step });
    makeMove(job.id, { move: 'rewire', station: 'fit', step });
  };
  const onTakenBack = (step: string): void => {
    set({ rewired: null });
    undoMove(job.id, step);
  };
  return (
    <>
      <NextStep job={job} done={station.status === 'done'} data={data} set={set} />
      <div class="folds">
        <Fold title="Order of work" answer={`${stepsDone(data)} of ${fitSteps.length} done`}>
          <WorkOrder job={job} data={data} set={set} />
        </Fold>
        <Fold title="Leads and pins" answer={leadsGist(data)}>
          <Leads job={job} data={data} set={set} onMoved={onRewired} onTakenBack={onTakenBack} />
        </Fold>
        <Fold
          title="Screws"
          answer={choice.found ? `${quantityText(choice.lengthMm, 'mm')} under the head` : 'no length yet'}
        >
          <Screws jobId={job.id} data={data} chosen={chosen} set={set} />
        </Fold>
        <Fold
          title="Mass of the hardware"
          answer={hardware.found ? quantityText(hardware.value.massG, 'g') : 'not known'}
        >
          <HardwareMass
            jobId={job.id}
            data={data}
            chosen={chosen}
            input={input}
            set={set}
            onIntoMatch={(grams) => match.set({ typed: { ...match.data.typed, hardwareMassG: grams } })}
          />
        </Fold>
        <Photographs job={job} station="fit" />
      </div>
    </>
  );
}
