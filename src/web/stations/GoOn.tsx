/** The main button of a station that has nothing left to do: it is closed, and the next open one follows. */
import type { Job } from '../../core/job/api.ts';
import { type StationName, stationTitles } from '../../core/job/station.ts';
import { draftOf } from '../stationDraft.ts';
import { closeAndGoOn, nextAfter } from './leadOn.ts';

export function GoOn({ job, station }: { readonly job: Job; readonly station: StationName }) {
  const next = nextAfter(job, station);
  // a station that is done leads on from its own line at the top
  if (draftOf(job.id, station).status.value === 'done') return null;
  return (
    <div class="buttons">
      <button type="button" class="button main" onClick={() => closeAndGoOn(job, station)}>
        {next === null ? `${stationTitles[station].title} is done` : `Go on to ${stationTitles[next].title}`}
      </button>
    </div>
  );
}
