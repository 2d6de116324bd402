/** The whole window takes a dropped recording. */
import { useEffect } from 'preact/hooks';
import type { StationName } from '../../core/job/station.ts';
import { job } from '../jobState.ts';
import { go, route, stationPath } from '../route.ts';
import { takeFiles } from './reading.ts';

/** Stations that show what was read; dropped elsewhere, a recording opens Tilt. */
const readers: readonly StationName[] = ['intake', 'tilt', 'run'];

const dropStation = (): StationName => {
  const here = route.peek();
  return here.kind === 'station' && readers.includes(here.station) ? here.station : 'tilt';
};

const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') === true;

export function useDrop(): void {
  useEffect(() => {
    let depth = 0;
    const show = (on: boolean): void => {
      document.body.classList.toggle('dropping', on);
      document.body.dataset.drop = 'Let go to read this side';
    };
    const enter = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      depth += 1;
      show(true);
    };
    const leave = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) show(false);
    };
    const over = (event: DragEvent): void => {
      if (carriesFiles(event)) event.preventDefault();
    };
    const drop = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      depth = 0;
      show(false);
      const open = job.value;
      const files = [...(event.dataTransfer?.files ?? [])];
      if (open === null || files.length === 0) return;
      const station = dropStation();
      go(stationPath(open.id, station));
      void takeFiles(files, open.id, station);
    };
    addEventListener('dragenter', enter);
    addEventListener('dragleave', leave);
    addEventListener('dragover', over);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragenter', enter);
      removeEventListener('dragleave', leave);
      removeEventListener('dragover', over);
      removeEventListener('drop', drop);
    };
  }, []);
}
