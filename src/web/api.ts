/** Talks to the local server. Two ways to fail, kept apart: it is away (try again), or it said no (a sentence says why). */
import { z } from 'zod';
import {
  apiErrorSchema,
  apiPaths,
  type CaptureAdded,
  type CaptureChange,
  type CaptureRecord,
  captureAddedSchema,
  captureRecordSchema,
  type Fitted,
  fittedSchema,
  type HeadChange,
  type Job,
  type JobHead,
  type JobList,
  jobHeadSchema,
  jobListSchema,
  jobSchema,
  type Last,
  type LastChange,
  type Learned,
  lastChangeSchema,
  lastSchema,
  learnedSchema,
  type Move,
  type MoveMade,
  moveMadeSchema,
  type NewCapture,
  type NewJob,
  type OutcomeChange,
  type OutcomeKept,
  outcomeKeptSchema,
  type PartChange,
  type PartList,
  type PartRecord,
  partListSchema,
  partRecordSchema,
  type StationChange,
  type StationState,
  stationStateSchema,
  type Undo,
} from '../core/job/api.ts';
import type { NewFitting } from '../core/job/epochs.ts';
import { type Letterhead, letterheadSchema } from '../core/job/letterhead.ts';
import type { PartKind } from '../core/job/partFields.ts';
import {
  type NewPhotograph,
  type PhotographChange,
  type PhotographsKept,
  photographsKeptSchema,
} from '../core/job/photographs.ts';
import type { RECORD_KIND } from '../core/job/recordFile.ts';
import { shopSchema } from '../core/job/shop.ts';
import type { StationName } from '../core/job/station.ts';

/** No answer: not running, restarting, or out of reach. */
export class ServerAway extends Error {}

/** It answered, and the answer was no. `body` holds what else it sent, e.g. the current state of a conflict. */
export class ServerSaid extends Error {
  readonly status: number;
  readonly body: unknown;
  constructor(status: number, sentence: string, body: unknown) {
    super(sentence);
    this.status = status;
    this.body = body;
  }
}

const PATIENCE_MS = 15_000;
/** a browser finishes a request of up to 64 kB even when its page is closed meanwhile */
const SMALL = 60_000;

async function ask<T>(method: string, path: string, schema: z.ZodType<T>, body?: unknown): Promise<T> {
  let response: Response;
  let text: string;
  const sent = body === undefined ? undefined : JSON.stringify(body);
  try {
    response = await fetch(path, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      body: sent,
      keepalive: sent !== undefined && sent.length < SMALL,
      signal: AbortSignal.timeout(PATIENCE_MS),
      credentials: 'omit',
      cache: 'no-store',
    });
    text = await response.text();
  } catch {
    throw new ServerAway('The bench server does not answer.');
  }
  let data: unknown;
  try {
    // an answer without content, of status 204
    data = text === '' ? null : JSON.parse(text);
  } catch {
    throw new ServerAway('Something other than the bench server answered.');
  }
  if (!response.ok) {
    const said = apiErrorSchema.safeParse(data);
    throw new ServerSaid(
      response.status,
      said.success ? said.data.error : `The bench server refused with status ${response.status}.`,
      data,
    );
  }
  const read = schema.safeParse(data);
  if (!read.success) {
    throw new ServerSaid(
      response.status,
      'The server and this page are of different versions: load the page again.',
      data,
    );
  }
  return read.data;
}

export const api = {
  last: (): Promise<Last> => ask('GET', apiPaths.last, lastSchema),
  setLast: (change: LastChange): Promise<LastChange> => ask('PUT', apiPaths.last, lastChangeSchema, change),
  jobs: (): Promise<JobList> => ask('GET', apiPaths.jobs, jobListSchema),
  job: (id: string): Promise<Job> => ask('GET', apiPaths.job(id), jobSchema),
  newJob: (job: NewJob): Promise<Job> => ask('POST', apiPaths.jobs, jobSchema, job),
  changeJob: (id: string, change: HeadChange): Promise<JobHead> =>
    ask('PATCH', apiPaths.job(id), jobHeadSchema, change),
  changeStation: (id: string, name: StationName, change: StationChange): Promise<StationState> =>
    ask('PATCH', apiPaths.station(id, name), stationStateSchema, change),
  move: (id: string, move: Move): Promise<MoveMade> => ask('POST', apiPaths.moves(id), moveMadeSchema, move),
  undoMove: (id: string, undo: Undo): Promise<MoveMade> => ask('POST', apiPaths.undoMove(id), moveMadeSchema, undo),
  addCapture: (id: string, capture: NewCapture): Promise<CaptureAdded> =>
    ask('POST', apiPaths.captures(id), captureAddedSchema, capture),
  capture: (id: string, capture: string): Promise<CaptureRecord> =>
    ask('GET', apiPaths.capture(id, capture), captureRecordSchema),
  changeCapture: (id: string, capture: string, change: CaptureChange): Promise<CaptureAdded> =>
    ask('PATCH', apiPaths.capture(id, capture), captureAddedSchema, change),
  addPhotograph: (id: string, photograph: NewPhotograph): Promise<PhotographsKept> =>
    ask('POST', apiPaths.photographs(id), photographsKeptSchema, photograph),
  notePhotograph: (id: string, photograph: string, change: PhotographChange): Promise<PhotographsKept> =>
    ask('PATCH', apiPaths.photograph(id, photograph), photographsKeptSchema, change),
  deletePhotograph: (id: string, photograph: string): Promise<PhotographsKept> =>
    ask('DELETE', apiPaths.photograph(id, photograph), photographsKeptSchema),
  fit: (id: string, fitting: NewFitting): Promise<Fitted> => ask('POST', apiPaths.fittings(id), fittedSchema, fitting),
  takeFittingBack: (id: string, fitting: string): Promise<Fitted> =>
    ask('DELETE', apiPaths.fitting(id, fitting), fittedSchema),
  outcome: (id: string, advice: string, change: OutcomeChange): Promise<OutcomeKept> =>
    ask('POST', apiPaths.outcome(id, advice), outcomeKeptSchema, change),
  setShop: (shop: Job['shop']): Promise<Job['shop']> => ask('PUT', apiPaths.shop, shopSchema, shop),
  learned: (key: string): Promise<Learned> => ask('GET', apiPaths.learned(key), learnedSchema),
  parts: (kind?: typeof RECORD_KIND): Promise<PartList> =>
    ask('GET', kind === undefined ? apiPaths.parts : `${apiPaths.parts}?kind=${kind}`, partListSchema),
  changePart: (kind: PartKind | typeof RECORD_KIND, id: string, change: PartChange): Promise<PartRecord> =>
    ask('PATCH', apiPaths.part(kind, id), partRecordSchema, change),
  deletePart: (kind: PartKind | typeof RECORD_KIND, id: string): Promise<null> =>
    ask('DELETE', apiPaths.part(kind, id), z.null()),
  letterhead: (): Promise<Letterhead> => ask('GET', apiPaths.letterhead, letterheadSchema),
  setLetterhead: (letterhead: Letterhead): Promise<Letterhead> =>
    ask('PUT', apiPaths.letterhead, letterheadSchema, letterhead),
};
