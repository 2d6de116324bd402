/** Jobs, their stations, captures and advice over HTTP. Each handler asks the store one question. */

import { type Context, Hono } from 'hono';
import {
  type CaptureRecord,
  captureChangeSchema,
  type DeckList,
  decksQuerySchema,
  headChangeSchema,
  type Job,
  jobAsideChangeSchema,
  jobsQuerySchema,
  type Last,
  lastChangeSchema,
  moveSchema,
  newCaptureSchema,
  newJobSchema,
  outcomeChangeSchema,
  stationChangeSchema,
  undoSchema,
} from '../core/job/api.ts';
import { type Audience, audiences, isAudience } from '../core/job/audience.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { newFittingSchema } from '../core/job/epochs.ts';
import { type Letterhead, letterheadSchema } from '../core/job/letterhead.ts';
import type { PhotographInFile } from '../core/job/photographs.ts';
import { isStationName } from '../core/job/station.ts';
import { stopped } from '../core/words/statement.ts';
import type { Change, Held } from '../store/answers.ts';
import type { Store } from '../store/store.ts';
import { headersFor } from './headers.ts';
import { Refusal } from './refusal.ts';
import { bodyOf } from './requestBody.ts';

export type ReportOf = (
  job: Job,
  captures: readonly CaptureRecord[],
  whom: {
    readonly audience: Audience;
    readonly letterhead: Letterhead;
    readonly photographs: readonly PhotographInFile[];
  },
) => string;

/** Rows of a list where nobody asks for fewer; `next` tells of more. */
const MOST_AT_ONCE = 500;

/** @throws Refusal when it is not there */
export function present<T>(answer: Held<T>): T {
  if (answer.outcome === 'not-found') throw new Refusal('not-found', answer.why);
  return answer.value;
}

/** @throws Refusal when it is not there, is no such thing as is kept, or was changed elsewhere to another value */
export function changed<T>(answer: Change<T, unknown>, what: string): T {
  if (answer.outcome === 'not-found') throw new Refusal('not-found', answer.why);
  if (answer.outcome === 'refused')
    throw new Refusal('bad-request', `${what} cannot keep this; ${stopped(answer.why)}`);
  if (answer.outcome === 'conflict') {
    const { current, conflicts } = answer;
    throw new Refusal(
      'conflict',
      `${what} was changed elsewhere since; "conflicts" has both values, "current" what is kept now.`,
      { current, conflicts },
    );
  }
  return answer.value;
}

/** @throws Refusal when the address asks for no such list */
export function jobsQueryOf(c: Context) {
  const query = jobsQuerySchema.safeParse(c.req.query());
  if (query.success) return query.data;
  throw noSuchPage(query.error);
}

const noSuchPage = (error: Parameters<typeof checkSentence>[0]): Refusal =>
  new Refusal('bad-request', `The address asks for no such page; ${checkSentence(error)}.`);

export function jobRoutes(store: Store, reportOf: ReportOf): Hono {
  const routes = new Hono();

  const last = async (): Promise<Last> => {
    const place = await store.last();
    const job = place === null ? null : await store.job(place.jobId);
    if (place === null || job?.outcome !== 'found') return { job: null, station: null };
    return { job: job.value, station: place.station };
  };
  routes.get('/last', async (c) => c.json(await last()));
  routes.put('/last', async (c) => {
    const change = await bodyOf(c.req, lastChangeSchema);
    present(await store.setLast(change));
    return c.json(change);
  });

  routes.get('/letterhead', async (c) => c.json((await store.letterhead()) satisfies Letterhead));
  routes.put('/letterhead', async (c) => {
    const letterhead = await bodyOf(c.req, letterheadSchema);
    await store.setLetterhead(letterhead);
    return c.json(letterhead);
  });

  routes.get('/decks', async (c) => {
    const query = decksQuerySchema.safeParse(c.req.query());
    if (!query.success) throw noSuchPage(query.error);
    return c.json((await store.decks({ limit: MOST_AT_ONCE, ...query.data })) satisfies DeckList);
  });
  routes.get('/jobs', async (c) => c.json(await store.jobs({ limit: MOST_AT_ONCE, ...jobsQueryOf(c) })));
  routes.delete('/jobs/:id', async (c) => c.json(present(await store.deleteJob(c.req.param('id')))));
  routes.post('/jobs', async (c) => {
    const job: Job = present(await store.createJob(await bodyOf(c.req, newJobSchema)));
    return c.json(job, 201);
  });

  routes.get('/jobs/:id', async (c) => c.json(present(await store.job(c.req.param('id')))));
  routes.put('/jobs/:id/set-aside', async (c) => {
    const { setAside } = await bodyOf(c.req, jobAsideChangeSchema);
    return c.json(present(await store.setJobAside(c.req.param('id'), setAside?.why ?? null)));
  });
  routes.patch('/jobs/:id', async (c) => {
    const change = await bodyOf(c.req, headChangeSchema);
    return c.json(changed(await store.changeJob(c.req.param('id'), change), 'The job'));
  });
  routes.patch('/jobs/:id/stations/:station', async (c) => {
    const station = c.req.param('station');
    if (!isStationName(station)) throw new Refusal('not-found', `There is no station ${station}.`);
    const change = await bodyOf(c.req, stationChangeSchema);
    return c.json(changed(await store.changeStation(c.req.param('id'), station, change), 'The station'));
  });
  routes.post('/jobs/:id/moves', async (c) => {
    const move = await bodyOf(c.req, moveSchema);
    return c.json(present(await store.move(c.req.param('id'), move)));
  });
  routes.post('/jobs/:id/moves/undo', async (c) => {
    const undo = await bodyOf(c.req, undoSchema);
    return c.json(present(await store.undoMove(c.req.param('id'), undo)));
  });

  routes.post('/jobs/:id/captures', async (c) => {
    const capture = await bodyOf(c.req, newCaptureSchema);
    const { added, fresh } = present(await store.addCapture(c.req.param('id'), capture));
    return c.json(added, fresh ? 201 : 200);
  });
  routes.get('/jobs/:id/captures/:capture', async (c) =>
    c.json(present(await store.capture(c.req.param('id'), c.req.param('capture')))),
  );
  routes.patch('/jobs/:id/captures/:capture', async (c) => {
    const change = await bodyOf(c.req, captureChangeSchema);
    return c.json(present(await store.changeCapture(c.req.param('id'), c.req.param('capture'), change)));
  });
  routes.post('/jobs/:id/fittings', async (c) => {
    const fitting = await bodyOf(c.req, newFittingSchema);
    return c.json(present(await store.addFitting(c.req.param('id'), fitting)), 201);
  });
  routes.delete('/jobs/:id/fittings/:fitting', async (c) =>
    c.json(present(await store.takeFittingBack(c.req.param('id'), c.req.param('fitting')))),
  );
  routes.post('/jobs/:id/advice/:advice/outcome', async (c) => {
    const change = await bodyOf(c.req, outcomeChangeSchema);
    return c.json(present(await store.setOutcome(c.req.param('id'), c.req.param('advice'), change)));
  });

  routes.get('/jobs/:id/report', async (c) => {
    const job = present(await store.job(c.req.param('id')));
    const audience = c.req.query('for') ?? 'customer';
    if (!isAudience(audience)) {
      throw new Refusal('bad-request', `for=${audience}: one of ${audiences.join(', ')} was expected.`);
    }
    const photographs = audience === 'technician' ? await store.photographs(job.id) : [];
    const letterhead = await store.letterhead();
    const html = reportOf(job, await store.captures(job.id), { audience, letterhead, photographs });
    return c.html(html, 200, {
      ...headersFor('report'),
      'Content-Disposition': `inline; filename="job-${job.number}.html"`,
    });
  });
  return routes;
}
