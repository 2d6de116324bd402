/** Jobs in and out over HTTP, as bundles and as one-file JSON. */

import { Hono } from 'hono';
import { type ImportDone, withoutOwner, writeBundle } from '../core/job/bundle.ts';
import { jobsFromFile } from '../core/job/jobsFromFile.ts';
import { say } from '../core/words/statement.ts';
import { platformBytes } from '../store/fileBytes.ts';
import type { Store } from '../store/store.ts';
import type { Imported } from '../store/transfer.ts';
import { present } from './jobRoutes.ts';
import { Refusal } from './refusal.ts';

/** @param madeBy product and version */
export function transferRoutes(store: Store, madeBy: string): Hono {
  const routes = new Hono();
  routes.get('/jobs/:id/export', async (c) => {
    const whole = present(await store.exportJob(c.req.param('id'), madeBy));
    const file = c.req.query('owner') === 'left-out' ? withoutOwner(whole) : whole;
    return c.body(`${JSON.stringify(file, null, 1)}\n`, 200, {
      'Content-Type': 'application/json; charset=utf-8',
      'Content-Disposition': `attachment; filename="job-${file.job.number}.json"`,
    });
  });
  routes.get('/jobs/:id/bundle', async (c) => {
    const file = present(await store.exportJob(c.req.param('id'), madeBy));
    const withoutOwners = c.req.query('owner') === 'left-out';
    const bytes = writeBundle({ withoutOwners, jobs: [file], recordings: [] }, file, platformBytes);
    return c.body(new Uint8Array(bytes), 200, {
      'Content-Type': 'application/zip',
      'Content-Disposition': `attachment; filename="job-${file.job.number}.platterside.zip"`,
    });
  });
  routes.post('/import', async (c) => {
    const type = c.req.header('content-type') ?? '';
    // a form on a stranger's page cannot send this type without asking first
    if (!/^application\/(zip|json)(\s*;|\s*$)/i.test(type)) {
      throw new Refusal('bad-request', `The file was sent as '${type.slice(0, 60)}'; application/zip was expected.`);
    }
    const read = jobsFromFile(new Uint8Array(await c.req.arrayBuffer()), platformBytes);
    if (!read.found) throw new Refusal('bad-request', `The file cannot be imported: ${say(read.why)}.`);
    const jobs: Imported[] = [];
    for (const job of read.bundle.jobs) jobs.push(await store.importJob(job, { asNew: c.req.query('as') === 'new' }));
    return c.json({ jobs, recordings: read.bundle.recordings.length } satisfies ImportDone);
  });
  return routes;
}
