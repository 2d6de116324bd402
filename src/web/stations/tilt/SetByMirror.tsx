/** How the cartridge was set before it was heard: what a tilt heard may still be the record's. */
import { setByMirror, type TiltTyped } from '../../../core/job/stations/tilt.ts';
import { Check } from '../../parts/Choice.tsx';
import { useStation } from '../../useStation.ts';

export function SetByMirror({ jobId }: { jobId: string }) {
  const station = useStation<TiltTyped>(jobId, 'tilt');
  return (
    <Check
      label={setByMirror.label}
      checked={station.data.setByMirror === true}
      onChecked={(on) => station.set({ setByMirror: on })}
    />
  );
}
