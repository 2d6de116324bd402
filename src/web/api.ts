/** Talks to the local server. Two ways to fail, kept apart: it is away (try again), or it said no (a sentence says why). */

import { signal } from '@preact/signals';
import { z } from 'zod';
import {
  apiErrorSchema,
  apiPaths,
  type BatchStatus,
  batchStatusSchema,
  type CaptureAdded,
  type CaptureChange,
  type CaptureRecord,
  captureAddedSchema,
  captureRecordSchema,
  type DeckList,
  deckListSchema,
  type Fitted,
  fittedSchema,
  type HeadChange,
  type Job,
  type JobAside,
  type JobDeleted,
  type JobHead,
  type JobList,
  type JobsQuery,
  jobAsideSchema,
  jobDeletedSchema,
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
  type SecondFigure,
  type SecondState,
  type StationChange,
  type StationState,
  secondStateSchema,
  stationStateSchema,
  type Undo,
} from '../core/job/api.ts';
import { type ImportDone, importDoneSchema } from '../core/job/bundle.ts';
import {
  type AlarmList,
  alarmListSchema,
  type Chain,
  type ChainChange,
  type ChainCharts,
  type ChainList,
  chainChartsSchema,
  chainListSchema,
  chainSchema,
  type JobChain,
  jobChainSchema,
  type NewReference,
  newReferenceSchema,
  type ReferenceChange,
  type ReferenceList,
  referenceListSchema,
} from '../core/job/chains/chain.ts';
import { type DeckHistory, deckHistorySchema } from '../core/job/deckHistory.ts';
import { type DueList, dueListSchema } from '../core/job/dueList.ts';
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
import { type StylusLedger, stylusLedgerSchema } from '../core/job/stylusHours.ts';
import { say, statement } from '../core/words/statement.ts';

/** the server does not know this browser: it has to be shown the key once */
export const locked = signal(false);

/** No answer: not running, restarting, or out of reach; or it answered that its database is. */
export class ServerAway extends Error {
  readonly database: boolean;
  constructor(sentence: string, database = false) {
    super(sentence);
    this.database = database;
  }
}

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
const PATIENCE_WITH_FILE_MS = 120_000;
/** a browser finishes a request of up to 64 kB even when its page is closed meanwhile */
const SMALL = 60_000;

/** @param body JSON, or a file as it is */
async function ask<T>(method: string, path: string, schema: z.ZodType<T>, body?: unknown): Promise<T> {
  let response: Response;
  let text: string;
  const file = body instanceof File ? body : null;
  const sent = body === undefined ? undefined : (file ?? JSON.stringify(body));
  try {
    response = await fetch(path, {
      method,
      headers: body === undefined ? {} : { 'content-type': file === null ? 'application/json' : 'application/zip' },
      body: sent,
      keepalive: typeof sent === 'string' && sent.length < SMALL,
      signal: AbortSignal.timeout(file === null ? PATIENCE_MS : PATIENCE_WITH_FILE_MS),
      credentials: 'same-origin',
      cache: 'no-store',
    });
    text = await response.text();
  } catch {
    throw new ServerAway(say(statement('server-does-not-answer')));
  }
  let data: unknown;
  try {
    // an answer without content, of status 204
    data = text === '' ? null : JSON.parse(text);
  } catch {
    throw new ServerAway(say(statement('something-else-answered')));
  }
  if (response.status === 401 && path !== apiPaths.enter) {
    locked.value = true;
    throw new ServerAway(say(statement('browser-not-let-in')));
  }
  if (!response.ok) {
    const said = apiErrorSchema.safeParse(data);
    // the server is there and its database is not: what waits here is sent again, and kept once
    if (said.data?.code === 'away') throw new ServerAway(said.data.error, true);
    throw new ServerSaid(
      response.status,
      said.success ? said.data.error : say(statement('refused-with-status', { status: response.status })),
      data,
    );
  }
  const read = schema.safeParse(data);
  if (!read.success) {
    throw new ServerSaid(response.status, say(statement('versions-differ')), data);
  }
  return read.data;
}

const searchOf = (query: Readonly<Record<string, string | number | undefined>>): string =>
  new URLSearchParams(
    Object.entries(query).flatMap(([name, value]) => (value === undefined ? [] : [[name, String(value)]])),
  ).toString();

export const api = {
  enter: (key: string): Promise<null> => ask('POST', apiPaths.enter, z.null(), { key }),
  last: (): Promise<Last> => ask('GET', apiPaths.last, lastSchema),
  setLast: (change: LastChange): Promise<LastChange> => ask('PUT', apiPaths.last, lastChangeSchema, change),
  jobs: (query: JobsQuery = {}): Promise<JobList> => ask('GET', `${apiPaths.jobs}?${searchOf(query)}`, jobListSchema),
  deleteJob: (id: string): Promise<JobDeleted> => ask('DELETE', apiPaths.job(id), jobDeletedSchema),
  /** @param why null: taken in again */
  setJobAside: (id: string, why: string | null): Promise<JobAside> =>
    ask('PUT', apiPaths.jobAside(id), jobAsideSchema, { setAside: why === null ? null : { why } }),
  importJobs: (file: File, asNew: boolean): Promise<ImportDone> =>
    ask('POST', `${apiPaths.import}${asNew ? '?as=new' : ''}`, importDoneSchema, file),
  decksNamed: (named: string): Promise<DeckList> =>
    ask('GET', `${apiPaths.decks}?${searchOf({ named })}`, deckListSchema),
  deckHistory: (deck: string): Promise<DeckHistory> => ask('GET', apiPaths.history(deck), deckHistorySchema),
  /** @param before as `next` of the page before told it */
  styli: (before?: number): Promise<StylusLedger> =>
    ask('GET', `${apiPaths.styli}?${searchOf({ before })}`, stylusLedgerSchema),
  /** @param after as `next` of the page before told it */
  due: (after?: string): Promise<DueList> => ask('GET', `${apiPaths.due}?${searchOf({ after })}`, dueListSchema),
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
  shop: (): Promise<Job['shop']> => ask('GET', apiPaths.shop, shopSchema),
  chains: (after?: string): Promise<ChainList> =>
    ask('GET', `${apiPaths.chains}?${searchOf({ after })}`, chainListSchema),
  changeChain: (change: ChainChange): Promise<Chain> => ask('POST', apiPaths.chains, chainSchema, change),
  setJobChain: (job: string, chain: string | null): Promise<JobChain> =>
    ask('PUT', apiPaths.jobChain(job), jobChainSchema, { chain } satisfies JobChain),
  chainCharts: (chain: string, record?: string): Promise<ChainCharts> =>
    ask('GET', `${apiPaths.chainCharts(chain)}?${searchOf({ record })}`, chainChartsSchema),
  alarms: (since: string): Promise<AlarmList> =>
    ask('GET', `${apiPaths.alarms}?${searchOf({ since })}`, alarmListSchema),
  references: (): Promise<ReferenceList> => ask('GET', apiPaths.references, referenceListSchema),
  changeReference: (fingerprint: string, change: ReferenceChange): Promise<NewReference> =>
    ask('PATCH', apiPaths.reference(fingerprint), newReferenceSchema, change),
  removeReference: (fingerprint: string): Promise<null> => ask('DELETE', apiPaths.reference(fingerprint), z.null()),
  batches: (): Promise<BatchStatus> => ask('GET', apiPaths.batches, batchStatusSchema),
  setShop: (shop: Job['shop']): Promise<Job['shop']> => ask('PUT', apiPaths.shop, shopSchema, shop),
  learned: (key: string): Promise<Learned> => ask('GET', apiPaths.learned(key), learnedSchema),
  parts: (kind?: typeof RECORD_KIND): Promise<PartList> =>
    ask('GET', kind === undefined ? apiPaths.parts : `${apiPaths.parts}?kind=${kind}`, partListSchema),
  changePart: (kind: PartKind | typeof RECORD_KIND, id: string, change: PartChange): Promise<PartRecord> =>
    ask('PATCH', apiPaths.part(kind, id), partRecordSchema, change),
  deletePart: (kind: PartKind | typeof RECORD_KIND, id: string): Promise<null> =>
    ask('DELETE', apiPaths.part(kind, id), z.null()),
  secondOn: (asked: { address?: string }): Promise<SecondState> =>
    ask('POST', apiPaths.secondScreen, secondStateSchema, asked),
  secondOff: (): Promise<null> => ask('DELETE', apiPaths.secondScreen, z.null()),
  renewSecondCode: (): Promise<null> => ask('POST', apiPaths.secondCode, z.null()),
  showSecond: (figure: SecondFigure): Promise<null> => ask('PUT', apiPaths.secondFigure, z.null(), figure),
  letterhead: (): Promise<Letterhead> => ask('GET', apiPaths.letterhead, letterheadSchema),
  setLetterhead: (letterhead: Letterhead): Promise<Letterhead> =>
    ask('PUT', apiPaths.letterhead, letterheadSchema, letterhead),
};
