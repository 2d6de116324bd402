/** What a library's page is for, and the way back to the station of the open job that picks from it. */
import type { ComponentChildren } from 'preact';
import { type StationName, stationTitles } from '../../core/job/station.ts';
import { job } from '../jobState.ts';
import { stationPath } from '../route.ts';

interface LibraryAimProps {
  readonly station: StationName;
  readonly children: ComponentChildren;
}

export function LibraryAim({ station, children }: LibraryAimProps) {
  const bench = job.value;
  return (
    <p class="aim">
      {children}
      {bench !== null && (
        <>
          {' '}
          <a href={stationPath(bench.id, station)}>
            Back to {stationTitles[station].title} of {bench.title}
          </a>
        </>
      )}
    </p>
  );
}
