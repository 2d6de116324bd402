import { expect, it } from 'vitest';
import type { JobList } from './api.ts';
import { jobListCsv, jobListHead, jobListRows } from './jobListCsv.ts';
import { stationNames } from './station.ts';

const head = 'number,title,deck,owner,stations done,recordings,begun,changed,id,set aside\r\n';
const job = {
  id: 'j1',
  number: 41,
  title: 'Job 41',
  deck: { id: 'd', name: 'deck, big', description: '' },
  customer: 'C-9',
  createdAt: 'begun',
  updatedAt: 'changed',
  captures: 3,
  setAside: null,
  stations: {
    ...Object.fromEntries(stationNames.map((name) => [name, 'now'])),
    fit: 'done',
    weigh: 'done',
    tilt: 'stale',
  },
} as unknown as JobList['jobs'][number];

it('is one row a job, with the stations that are done counted and why it was set aside', () => {
  const jobs = [job, { ...job, number: 42, setAside: { at: 'then', why: 'twice' } }];
  const rows =
    '41,Job 41,"deck, big",C-9,2,3,begun,changed,j1,\r\n42,Job 41,"deck, big",C-9,2,3,begun,changed,j1,twice\r\n';
  expect(jobListHead()).toBe(head);
  expect(jobListRows({ jobs })).toBe(rows);
  expect(jobListCsv({ jobs })).toBe(head + rows);
  expect(jobListCsv({ jobs: [] })).toBe(head);
});
