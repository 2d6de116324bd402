/** Jobs as rows for a spreadsheet. */

import { csvText } from '../words/csv.ts';
import type { JobList } from './api.ts';
import { stationNames } from './station.ts';

export const jobListHead = (): string =>
  csvText([['number', 'title', 'deck', 'owner', 'stations done', 'recordings', 'begun', 'changed', 'id', 'set aside']]);

export const jobListRows = ({ jobs }: Pick<JobList, 'jobs'>): string =>
  csvText(
    jobs.map((job) => [
      job.number,
      job.title,
      job.deck.name,
      job.customer,
      stationNames.filter((name) => job.stations[name] === 'done').length,
      job.captures,
      job.createdAt,
      job.updatedAt,
      job.id,
      job.setAside?.why ?? '',
    ]),
  );

export const jobListCsv = (list: Pick<JobList, 'jobs'>): string => jobListHead() + jobListRows(list);
