/** Fit: leads on their pins, screws of the right length, the hardware's mass, and the order of work. */
import { makeMove } from '../../jobState.ts';
import { useMatch } from '../../useMatch.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import './fit.css';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { HardwareMass } from './HardwareMass.tsx';
import { Leads } from './Leads.tsx';
import { Screws } from './Screws.tsx';
import { WorkOrder } from './WorkOrder.tsx';

export default function FitStation({ job }: StationProps) {
  const station = useStation<FitTyped>(job.id, 'fit');
  const match = useMatch(job.id);
  const { data } = station;
  const { chosen, input } = match.reading;
  const { set } = station;
  return (
    <div class="do fit">
      <WorkOrder job={job} data={data} set={set} />
      <div class="stack">
        <Leads job={job} data={data} set={set} onMoved={() => makeMove(job.id, { move: 'rewire', station: 'fit' })} />
        <Screws jobId={job.id} data={data} chosen={chosen} set={set} />
        <HardwareMass
          jobId={job.id}
          data={data}
          chosen={chosen}
          input={input}
          set={set}
          onIntoMatch={(grams) => match.set({ typed: { ...match.data.typed, hardwareMassG: grams } })}
        />
      </div>
    </div>
  );
}
