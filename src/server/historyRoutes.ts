/** Questions over many jobs over HTTP, each as JSON for the page and as CSV for a spreadsheet. */
import { type Context, Hono } from 'hono';
import { deckHistoryCsv } from '../core/job/deckHistory.ts';
import { dueListCsv } from '../core/job/dueList.ts';
import { jobListCsv } from '../core/job/jobListCsv.ts';
import { stylusLedgerCsv } from '../core/job/stylusHours.ts';
import type { Store } from '../store/store.ts';
import { jobsQueryOf, present } from './jobRoutes.ts';

/** The bench's own day. */
export const today = (): string => new Date().toLocaleDateString('sv-SE');

export const csv = (c: Context, name: string, text: string) =>
  c.body(text, 200, {
    'Content-Type': 'text/csv; charset=utf-8',
    'Content-Disposition': `attachment; filename="${name}.csv"`,
  });

export function historyRoutes(store: Store): Hono {
  const routes = new Hono();
  routes.get('/jobs.csv', async (c) => csv(c, 'jobs', jobListCsv(await store.jobs(jobsQueryOf(c)))));
  routes.get('/decks/:id/history', async (c) => c.json(present(await store.deckHistory(c.req.param('id')))));
  routes.get('/decks/:id/history.csv', async (c) =>
    csv(c, 'deck-history', deckHistoryCsv(present(await store.deckHistory(c.req.param('id'))))),
  );
  routes.get('/styli', async (c) => c.json(await store.stylusLedger()));
  routes.get('/styli.csv', async (c) => csv(c, 'stylus-hours', stylusLedgerCsv(await store.stylusLedger(Infinity))));
  routes.get('/due', async (c) => c.json(await store.dueList(today())));
  routes.get('/due.csv', async (c) => csv(c, 'due', dueListCsv(await store.dueList(today(), Infinity))));
  return routes;
}
