/** Fit: leads on their pins, screws of the right length, the hardware's mass, and the order of work. */
import { useEffect } from 'preact/hooks';
import { makeMove } from '../../jobState.ts';
import { useMatch } from '../../useMatch.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import '../match/match.css';
import './fit.css';
import type { FitData } from './fitData.ts';
import { HardwareMass } from './HardwareMass.tsx';
import { hardwareForWeigh } from './hardwareFound.ts';
import { Leads } from './Leads.tsx';
import { Screws } from './Screws.tsx';
import { sheetLines } from './sheetLines.ts';
import { WorkOrder } from './WorkOrder.tsx';

export default function FitStation({ job }: StationProps) {
  const station = useStation<FitData>(job.id, 'fit');
  const match = useMatch(job.id);
  const { data } = station;
  const { chosen, input } = match.reading;
  const set = (patch: Partial<FitData>): void => {
    const next = { ...data, ...patch };
    station.set({ ...patch, hardware: hardwareForWeigh(next, chosen), forReport: sheetLines(next, chosen) });
  };
  // a mass reckoned from the parts' sizes follows them when other parts are picked at Match
  const reckoned = data.massBy === 'reckoned' ? hardwareForWeigh(data, chosen) : null;
  const kept = data.hardware;
  useEffect(() => {
    if (reckoned !== null && reckoned.massG !== kept?.massG) set({});
  }, [reckoned?.massG, kept?.massG]);
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
