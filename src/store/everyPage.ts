/** Long lists whole, page after page: each page is asked for alone, so that nobody waits for all of them. */
import type { JobList, JobsQuery } from '../core/job/api.ts';
import type { DueList, DueRow } from '../core/job/dueList.ts';
import type { StoreToRead } from './store.ts';

const AT_ONCE = 500;

export async function everyJob(store: Pick<StoreToRead, 'jobs'>, query: JobsQuery): Promise<JobList> {
  const list: JobList = { jobs: [], unreadable: [] };
  for await (const { jobs, unreadable } of jobPages(store, query)) {
    list.jobs.push(...jobs);
    list.unreadable.push(...unreadable);
  }
  return list;
}

export async function everyDue(store: Pick<StoreToRead, 'dueList'>, today: string): Promise<DueList> {
  const due: DueRow[] = [];
  let counts = { due: 0, soon: 0, byHours: 0, later: 0 };
  for await (const page of duePages(store, today)) {
    due.push(...page.due);
    counts = page.counts;
  }
  return { today, due, counts };
}

export async function* jobPages(store: Pick<StoreToRead, 'jobs'>, query: JobsQuery = {}): AsyncGenerator<JobList> {
  for (let before = query.before; ; ) {
    const page = await store.jobs({ ...query, limit: AT_ONCE, ...(before === undefined ? {} : { before }) });
    yield page;
    if (page.next === undefined) return;
    before = page.next;
  }
}

export async function* duePages(store: Pick<StoreToRead, 'dueList'>, today: string): AsyncGenerator<DueList> {
  for (let after: string | undefined; ; ) {
    const page = await store.dueList(today, { limit: AT_ONCE, ...(after === undefined ? {} : { after }) });
    yield page;
    if (page.next === undefined) return;
    after = page.next;
  }
}
