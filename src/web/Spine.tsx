/** The nine stations at the side (on top when narrow): where the job stands, and the way to each. */
import { useEffect, useRef } from 'preact/hooks';
import type { Job } from '../core/job/api.ts';
import { type StationName, stationNames, stationTitles } from '../core/job/station.ts';
import { stationPath } from './route.ts';
import { draftOf } from './stationDraft.ts';
import { ThemeChoice } from './ThemeChoice.tsx';

const marks = {
  untouched: { text: '–', name: 'not begun', style: '' },
  now: { text: 'begun', name: 'begun', style: '' },
  done: { text: '✓ done', name: 'done', style: 'done' },
  stale: { text: '↻ check again', name: 'check again', style: 'stale' },
} as const;

export function Spine({ job, current }: { job: Job | null; current: StationName | null }) {
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    const here = list.current?.querySelector<HTMLElement>('[aria-current]');
    const box = list.current;
    if (here && box && box.scrollWidth > box.clientWidth) {
      box.scrollLeft = here.offsetLeft - box.offsetLeft - (box.clientWidth - here.offsetWidth) / 2;
    }
  }, [current, job?.id]);
  return (
    <nav class="spine" aria-label="Stations of the job">
      <div class="heading">
        <h1>Platterside</h1>
        <p class="job">
          <a href="/jobs" title="Other jobs">
            {job === null ? 'Jobs' : job.title}
          </a>
        </p>
      </div>
      {job !== null && (
        <ol ref={list}>
          {stationNames.map((name) => {
            const mark = marks[draftOf(job.id, name).status.value];
            return (
              <li key={name}>
                <a href={stationPath(job.id, name)} aria-current={name === current ? 'page' : undefined}>
                  {stationTitles[name].title}{' '}
                  <span class={`mark ${mark.style}`}>
                    <span aria-hidden="true">{mark.text}</span>
                    <span class="unseen">({mark.name})</span>
                  </span>
                </a>
              </li>
            );
          })}
        </ol>
      )}
      <div class="foot">
        <a href="/docs/index">How it works, signs and methods</a>
        <ThemeChoice />
      </div>
    </nav>
  );
}
