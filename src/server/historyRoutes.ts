/** Questions over many jobs over HTTP, each as JSON for the page and as CSV for a spreadsheet. */
import { Hono } from 'hono';
import type { JobsQuery } from '../core/job/api.ts';
import { deckHistoryCsv } from '../core/job/deckHistory.ts';
import { dueListHead, dueListRows, dueQuerySchema } from '../core/job/dueList.ts';
import { jobListCsv, jobListHead, jobListRows } from '../core/job/jobListCsv.ts';
import { ledgerQuerySchema, stylusLedgerCsv } from '../core/job/stylusHours.ts';
import { duePages, jobPages } from '../store/everyPage.ts';
import type { Store } from '../store/store.ts';
import { csv, csvInParts } from './csv.ts';
import { jobsQueryOf, present } from './jobRoutes.ts';
import { queryOf } from './queryOf.ts';

/** The bench's own day. */
export const today = (): string => new Date().toLocaleDateString('sv-SE');

async function* jobRows(store: Store, query: JobsQuery): AsyncGenerator<string> {
  yield jobListHead();
  for await (const page of jobPages(store, query)) yield jobListRows(page);
}

async function* dueRows(store: Store): AsyncGenerator<string> {
  yield dueListHead();
  for await (const page of duePages(store, today())) yield dueListRows(page);
}

export function historyRoutes(store: Store): Hono {
  const routes = new Hono();
  routes.get('/jobs.csv', async (c) => {
    const query = jobsQueryOf(c);
    return query.limit === undefined
      ? csvInParts(c, 'jobs', jobRows(store, query))
      : csv(c, 'jobs', jobListCsv(await store.jobs(query)));
  });
  routes.get('/decks/:id/history', async (c) => c.json(present(await store.deckHistory(c.req.param('id')))));
  routes.get('/decks/:id/history.csv', async (c) =>
    csv(c, 'deck-history', deckHistoryCsv(present(await store.deckHistory(c.req.param('id'))))),
  );
  routes.get('/styli', async (c) => c.json(await store.stylusLedger(queryOf(ledgerQuerySchema, c.req.query()))));
  routes.get('/styli.csv', async (c) => csv(c, 'stylus-hours', stylusLedgerCsv(await store.stylusLedger())));
  routes.get('/due', async (c) => c.json(await store.dueList(today(), queryOf(dueQuerySchema, c.req.query()))));
  routes.get('/due.csv', async (c) => csvInParts(c, 'due', dueRows(store)));
  return routes;
}
