/** Chains, what left its limits, reference recordings and batches over HTTP: JSON for the page, CSV for other systems. */
import { Hono } from 'hono';
import { z } from 'zod';
import {
  type ChainSummary,
  chainChangeSchema,
  jobChainSchema,
  referenceChangeSchema,
} from '../core/job/chains/chain.ts';
import {
  alarmsCsv,
  chainHistoryHead,
  chainHistoryRows,
  chainListCsv,
  referencesCsv,
} from '../core/job/chains/chainCsv.ts';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import type { Store } from '../store/store.ts';
import { csv, csvInParts } from './csv.ts';
import { today } from './historyRoutes.ts';
import { changed, present } from './jobRoutes.ts';
import { queryOf } from './queryOf.ts';
import { bodyOf } from './requestBody.ts';

const limit = z.coerce.number().int().min(1).max(500).default(100);
const pageSchema = z.object({ limit, after: z.string().max(200).optional() });
const historySchema = z.object({ limit, before: z.string().max(400).optional() });
const chartsSchema = z.object({
  record: z
    .string()
    .regex(/^([0-9a-f]{16}|none)$/, { error: "a record's key is 16 digits or letters a to f, or none" })
    .optional(),
});
const sinceSchema = z.object({
  since: z.iso.datetime({ error: 'a time is written as 2026-03-04T09:30:00.000Z' }).optional(),
});

const DAY_MS = 86_400_000;
const since = (query: Record<string, string>): string => {
  const given = queryOf(sinceSchema, query).since;
  return given === undefined ? new Date(Date.now() - DAY_MS).toISOString() : new Date(given).toISOString();
};

const AT_ONCE = 500;

/** Rows of a whole history, page after page, so that a long one is never held whole. */
async function* historyCsv({ chains }: Store, id: string): AsyncGenerator<string> {
  yield chainHistoryHead();
  for (let before: string | undefined; ; ) {
    const page = { limit: AT_ONCE, ...(before === undefined ? {} : { before }) };
    const history = present(await chains.history(id, page));
    yield chainHistoryRows(history);
    if (history.next === undefined) return;
    before = history.next;
  }
}

async function allChains({ chains }: Store): Promise<ChainSummary[]> {
  const all: ChainSummary[] = [];
  for (let after: string | undefined; ; ) {
    const page = await chains.list({ limit: AT_ONCE, ...(after === undefined ? {} : { after }) });
    all.push(...page.chains);
    if (page.next === undefined) return all;
    after = page.next;
  }
}

export function chainRoutes(store: Store): Hono {
  const { chains } = store;
  const routes = new Hono();
  routes.get('/chains', async (c) => c.json(await chains.list(queryOf(pageSchema, c.req.query()))));
  routes.post('/chains', async (c) => c.json(await chains.change(await bodyOf(c.req, chainChangeSchema))));
  routes.put('/jobs/:id/chain', async (c) => {
    const wanted = await bodyOf(c.req, jobChainSchema);
    present(await chains.setJob(c.req.param('id'), wanted.chain));
    return c.json(wanted);
  });
  routes.get('/chains.csv', async (c) => csv(c, 'chains', chainListCsv({ chains: await allChains(store) })));
  routes.get('/chains/:id/charts', async (c) =>
    c.json(present(await chains.charts(c.req.param('id'), queryOf(chartsSchema, c.req.query()).record))),
  );
  routes.get('/chains/:id/history', async (c) =>
    c.json(present(await chains.history(c.req.param('id'), queryOf(historySchema, c.req.query())))),
  );
  routes.get('/chains/:id/history.csv', async (c) => {
    const id = c.req.param('id');
    present(await chains.chain(id));
    return csvInParts(c, 'chain-history', historyCsv(store, id));
  });
  routes.get('/alarms', async (c) => c.json(await chains.alarms(since(c.req.query()))));
  routes.get('/alarms.csv', async (c) => csv(c, 'alarms', alarmsCsv(await chains.alarms(since(c.req.query())))));
  routes.get('/references', async (c) => c.json(await chains.references(today())));
  routes.patch('/references/:fingerprint', async (c) => {
    const change = await bodyOf(c.req, referenceChangeSchema);
    return c.json(changed(await chains.changeReference(c.req.param('fingerprint'), change), 'The reference recording'));
  });
  routes.delete('/references/:fingerprint', async (c) => {
    present(await chains.removeReference(c.req.param('fingerprint')));
    return c.body(null, 204);
  });
  routes.get('/references.csv', async (c) => csv(c, 'references', referencesCsv(await chains.references(today()))));
  routes.get('/batches', async (c) => c.json(await store.batches(METHOD_VERSION)));
  return routes;
}
