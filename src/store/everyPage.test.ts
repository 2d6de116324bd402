import { expect, it } from 'vitest';
import type { JobsQuery } from '../core/job/api.ts';
import type { DueQuery } from '../core/job/dueList.ts';
import { everyDue, everyJob } from './everyPage.ts';

/** A store whose jobs are numbers, and the questions that it was asked. */
function jobsFrom(numbers: readonly number[], atMost: number) {
  const asked: JobsQuery[] = [];
  return {
    asked,
    jobs: async (query: JobsQuery = {}) => {
      asked.push(query);
      const wanted = numbers.filter((number) => query.before === undefined || number < query.before);
      const page = {
        jobs: wanted.slice(0, atMost) as never[],
        unreadable: [{ id: `${wanted[0]}`, number: 0, why: '' }],
      };
      return wanted.length > atMost ? { ...page, next: wanted[atMost - 1] } : page;
    },
  };
}

it('all jobs are asked for page after page of 500, each by what was asked', async () => {
  const store = jobsFrom([9, 8, 7, 6, 5], 2);
  expect(await everyJob(store, { words: 'x' })).toEqual({
    jobs: [9, 8, 7, 6, 5],
    unreadable: [
      { id: '9', number: 0, why: '' },
      { id: '7', number: 0, why: '' },
      { id: '5', number: 0, why: '' },
    ],
  });
  expect(store.asked).toEqual([
    { words: 'x', limit: 500 },
    { words: 'x', limit: 500, before: 8 },
    { words: 'x', limit: 500, before: 6 },
  ]);
});

it('where a beginning is asked for, the pages begin there', async () => {
  const store = jobsFrom([9, 8, 7], 5);
  expect((await everyJob(store, { before: 9 })).jobs).toEqual([8, 7]);
  expect(store.asked).toEqual([{ before: 9, limit: 500 }]);
});

it('all next checks come with the counts, which every page has whole', async () => {
  const asked: [string, DueQuery | undefined][] = [];
  const counts = { due: 1, soon: 2, byHours: 3, later: 4 };
  const dueList = async (today: string, query?: DueQuery) => {
    asked.push([today, query]);
    const page = { today, due: [query?.after ?? 'first'] as never[], counts };
    return query?.after === 'c' ? page : { ...page, next: query?.after === undefined ? 'b' : 'c' };
  };
  expect(await everyDue({ dueList }, '2026-03-01')).toEqual({ today: '2026-03-01', due: ['first', 'b', 'c'], counts });
  expect(asked).toEqual([
    ['2026-03-01', { limit: 500 }],
    ['2026-03-01', { limit: 500, after: 'b' }],
    ['2026-03-01', { limit: 500, after: 'c' }],
  ]);
});
