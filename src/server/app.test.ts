import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  apiErrorSchema,
  apiPaths,
  captureAddedSchema,
  captureRecordSchema,
  deckListSchema,
  headConflictSchema,
  healthSchema,
  type Job,
  jobHeadSchema,
  jobListSchema,
  jobSchema,
  lastSchema,
  moveMadeSchema,
  outcomeKeptSchema,
  partConflictSchema,
  partListSchema,
  partRecordSchema,
  stationConflictSchema,
  stationStateSchema,
} from '../core/job/api.ts';
import { importDoneSchema } from '../core/job/bundle.ts';
import { readJobFile } from '../core/job/jobFile.ts';
import { leafChanges } from '../core/job/leafPaths.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { stationNames } from '../core/job/station.ts';
import { countingOrigin, given } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { createApp } from './app.ts';
import { doorWith } from './door.ts';
import { pageFile } from './pageFiles.ts';
import { MOST_BYTES } from './requestBody.ts';

let store: Store;
let app: Hono;
let failures: unknown[];

const page = new Map(
  [
    ['/index.html', '<!doctype html><title>bench</title>'],
    ['/assets/index-Ab3_x9Qz.js', 'export {}'],
    ['/mark.svg', '<svg xmlns="http://www.w3.org/2000/svg"/>'],
  ].map(([path, text]) => [path, pageFile(path, new TextEncoder().encode(text))]),
);

const KEY = 'k'.repeat(43);

beforeEach(async () => {
  failures = [];
  store = await openStore(':memory:', countingOrigin());
  app = createApp({
    store,
    page,
    version: '0.0.1',
    port: () => 4133,
    door: doorWith(KEY),
    reportOf: (job, captures, { audience, letterhead }) =>
      `<h1>${job.title}</h1>${captures.length} ${audience} ${letterhead.name}`,
    onFailure: (error) => failures.push(error),
  });
});
afterEach(() => store.close());

const ask = (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) =>
  app.request(`http://127.0.0.1:4133${path}`, {
    method,
    headers: {
      host: '127.0.0.1:4133',
      authorization: `Bearer ${KEY}`,
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...headers,
    },
    body: body === undefined ? undefined : typeof body === 'string' ? body : JSON.stringify(body),
  });

async function refusal(response: Response | Promise<Response>): Promise<string> {
  const answer = await response;
  const { error, code } = apiErrorSchema.parse(await answer.json());
  expect(error).toMatch(/^[^\n]+[.!]$/);
  return `${answer.status} ${code}`;
}

async function newJob(): Promise<Job> {
  const response = await ask('POST', apiPaths.jobs, { deck: { name: 'deck in the window' } });
  expect(response.status).toBe(201);
  return jobSchema.parse(await response.json());
}

describe('every answer', () => {
  it('carries the headers that keep strangers out and give the page shared memory', async () => {
    for (const path of ['/', '/api/health', '/api/nowhere', '/jobs/1/tilt']) {
      const { headers } = await ask('GET', path);
      expect(headers.get('cross-origin-opener-policy'), path).toBe('same-origin');
      expect(headers.get('cross-origin-embedder-policy'), path).toBe('require-corp');
      expect(headers.get('cross-origin-resource-policy'), path).toBe('same-origin');
      expect(headers.get('x-content-type-options'), path).toBe('nosniff');
      expect(headers.get('content-security-policy'), path).toContain("script-src 'self' 'wasm-unsafe-eval';");
    }
  });

  it('is refused to strangers before anything is looked up', async () => {
    await newJob();
    const stranger = await ask('GET', '/api/jobs', undefined, { host: 'bench.example:4133' });
    expect(await refusal(stranger)).toBe('403 forbidden');
    expect(await refusal(ask('GET', '/', undefined, { host: 'bench.example' }))).toBe('403 forbidden');
    const crossed = ask('POST', '/api/jobs', { deck: { name: 'x' } }, { origin: 'https://bench.example' });
    expect(await refusal(crossed)).toBe('403 forbidden');
    expect((await store.jobs()).jobs).toHaveLength(1);
  });
});

describe('jobs over HTTP', () => {
  it('says who it is', async () => {
    expect(healthSchema.parse(await (await ask('GET', apiPaths.health)).json()).version).toBe('0.0.1');
  });

  it('makes, lists, reads and changes a job', async () => {
    const job = await newJob();
    const list = jobListSchema.parse(await (await ask('GET', apiPaths.jobs)).json());
    expect(list.jobs.map((entry) => entry.id)).toEqual([job.id]);
    expect((await (await ask('GET', `/api/jobs?deck=${job.deck.id}`)).json()).jobs).toHaveLength(1);
    expect((await (await ask('GET', '/api/jobs?deck=none')).json()).jobs).toHaveLength(0);
    expect(deckListSchema.parse(await (await ask('GET', apiPaths.decks)).json()).decks[0].jobs).toEqual([job.id]);
    const read = await ask('GET', apiPaths.job(job.id));
    expect(read.headers.get('cache-control')).toBe('no-store');
    expect(jobSchema.parse(await read.json())).toEqual(job);
    const customer = (is: string) => ({ changes: [{ path: ['customer'], was: '', is }] });
    const changed = await ask('PATCH', apiPaths.job(job.id), customer('C-3'));
    expect(jobHeadSchema.parse(await changed.json())).toMatchObject({ customer: 'C-3', revision: 1 });
    const late = await ask('PATCH', apiPaths.job(job.id), customer('C-4'));
    expect(late.status).toBe(409);
    const { current, conflicts } = headConflictSchema.parse(await late.json());
    expect(current.customer).toBe('C-3');
    expect(conflicts).toEqual([{ path: ['customer'], yours: 'C-4', theirs: 'C-3' }]);
  });

  it('gives both values to a tab that comes late, and the station alone to one in time', async () => {
    const { id } = await newJob();
    const path = apiPaths.station(id, 'weigh');
    const target = (is: string, was?: string) => ({ changes: [{ path: ['target'], was, is }] });
    const first = await ask('PATCH', path, target('1.50'));
    expect(stationStateSchema.parse(await first.json())).toMatchObject({ status: 'now', revision: 1 });
    const late = await ask('PATCH', path, target('1.8'));
    expect(late.status).toBe(409);
    const { current, conflicts } = stationConflictSchema.parse(await late.json());
    expect(current.data).toEqual({ target: '1.50' });
    expect(conflicts).toEqual([{ path: ['target'], yours: '1.8', theirs: '1.50' }]);
    const again = await ask('PATCH', path, { ...target('1.8', '1.50'), status: { was: 'now', is: 'done' } });
    expect(stationStateSchema.parse(await again.json())).toMatchObject({ status: 'done', revision: 2 });
  });

  it('refuses what a station has no field for, and a set without figures', async () => {
    const { id } = await newJob();
    const put = async (changes: unknown) => {
      const answer = await ask('PATCH', apiPaths.station(id, 'weigh'), { changes });
      expect(answer.status).toBe(400);
      return (await answer.json()).error;
    };
    const nonsense = [
      { path: ['forceUnit'], is: 42 },
      { path: ['gauge'], is: 'hello' },
      { path: ['sets'], is: 'nope' },
    ];
    expect(await put(nonsense)).toBe('The station cannot keep this; weigh.forceUnit: one of "g", "mN" was expected.');
    expect(await put([{ path: ['sets'], is: [{}] }])).toContain('weigh.sets.0.at: ');
    expect(given(await store.job(id)).stations.weigh).toMatchObject({ status: 'untouched', data: {} });
  });

  it('closes a job over open stations only with the reason', async () => {
    const { id } = await newJob();
    const path = apiPaths.station(id, 'hand-over');
    const status = { was: 'untouched', is: 'done' };
    for (const changes of [[], [{ path: ['closedOver'], is: '  ' }]]) {
      const answer = await ask('PATCH', path, { changes, status });
      expect(answer.status).toBe(400);
      expect((await answer.json()).error).toBe(
        'The station cannot keep this; hand-over.closedOver: the reason why the job is closed with stations open was expected; not done: Intake, Match, Fit, Weigh, Place, Height, Tilt, Run.',
      );
    }
    expect(given(await store.job(id)).stations['hand-over']).toMatchObject({ status: 'untouched', data: {} });
    const reasoned = { changes: [{ path: ['closedOver'], is: 'fetched early' }], status };
    expect(await (await ask('PATCH', path, reasoned)).json()).toMatchObject({ status: 'done' });
  });

  it('closes a job without a reason where all before it is done', async () => {
    const { id } = await newJob();
    const status = { was: 'untouched', is: 'done' };
    for (const name of stationNames) {
      const answer = await ask('PATCH', apiPaths.station(id, name), { status });
      expect(await answer.json()).toMatchObject({ status: 'done' });
    }
  });

  it('answers to typing, to a move, to a recording and to a fitting stay small in a job of twenty recordings', async () => {
    const { id } = await newJob();
    const sizes: Record<string, number[]> = { typing: [], move: [], capture: [], said: [], fitting: [] };
    // as many figures, with as many words, as the record file of the house brings
    const [figure] = tiltedSide.findings;
    const more = Array.from({ length: 80 }, (_, n) => ({
      ...figure,
      quantity: 'flutter-line',
      atHz: n,
      note: 'x'.repeat(600),
    }));
    for (let n = 0; n < 20; n++) {
      const side = n % 2 === 0 ? tiltedSide : straightSide;
      const capture = { ...side.capture, file: `${n}.wav`, sha256: null };
      const document = { ...side, capture, findings: [...side.findings, ...more] };
      const size = async (answer: Response | Promise<Response>) => (await (await answer).text()).length;
      const answer = await ask('POST', apiPaths.captures(id), { document, station: n === 0 ? 'intake' : 'tilt' });
      const text = await answer.text();
      sizes.capture.push(text.length);
      const said = apiPaths.capture(id, captureAddedSchema.parse(JSON.parse(text)).capture.id);
      sizes.said.push(await size(ask('PATCH', said, { kind: 'pass' })));
      const fitting = { kind: 'mat', name: `mat ${n}` };
      if (n % 10 === 5) sizes.fitting.push(await size(ask('POST', apiPaths.fittings(id), fitting)));
      const changes = [{ path: ['target'], was: n === 0 ? undefined : String(n - 1), is: String(n) }];
      sizes.typing.push(await size(ask('PATCH', apiPaths.station(id, 'weigh'), { changes })));
      sizes.move.push(await size(ask('POST', apiPaths.moves(id), { move: 'slide', station: 'place' })));
    }
    expect(Math.max(...sizes.typing)).toBeLessThan(1000);
    expect(Math.max(...sizes.move)).toBeLessThan(1000);
    for (const kind of ['capture', 'said', 'fitting']) expect(Math.max(...sizes[kind]), kind).toBeLessThan(10_000);
    expect((await (await ask('GET', apiPaths.job(id))).text()).length).toBeGreaterThan(1e6);
  });

  it('marks what a move makes stale', async () => {
    const { id } = await newJob();
    await ask('PATCH', apiPaths.station(id, 'tilt'), { status: { was: 'untouched', is: 'done' } });
    const moved = await ask('POST', apiPaths.moves(id), { move: 'slide', station: 'place' });
    expect(moveMadeSchema.parse(await moved.json()).stations).toMatchObject({ tilt: { status: 'stale' } });
  });

  it('takes captures, tells their documents, and keeps outcomes', async () => {
    const { id } = await newJob();
    const response = await ask('POST', apiPaths.captures(id), { document: tiltedSide, station: 'intake' });
    expect(response.status).toBe(201);
    const { capture, advice } = captureAddedSchema.parse(await response.json());
    expect((await ask('POST', apiPaths.captures(id), { document: tiltedSide })).status).toBe(200);
    const record = captureRecordSchema.parse(await (await ask('GET', apiPaths.capture(id, capture.id))).json());
    expect(record.document).toEqual(tiltedSide);
    const outcome = await ask('POST', apiPaths.outcome(id, advice[0].id), { did: 'done', note: 'by hand' });
    expect(outcomeKeptSchema.parse(await outcome.json()).advice.outcome).toMatchObject({
      did: 'done',
      note: 'by hand',
    });
    const later = await ask('POST', apiPaths.captures(id), { document: straightSide });
    const after = captureAddedSchema.parse(await later.json());
    expect(after.advice[0].checks).toHaveLength(2);
    expect(jobSchema.parse(await (await ask('GET', apiPaths.job(id))).json()).beforeAfter).toHaveLength(5);
  });

  it('remembers where the page was left', async () => {
    expect(await (await ask('GET', apiPaths.last)).json()).toEqual({ job: null, station: null });
    const job = await newJob();
    const set = await ask('PUT', apiPaths.last, { jobId: job.id, station: 'tilt' });
    expect(await set.json()).toEqual({ jobId: job.id, station: 'tilt' });
    expect(lastSchema.parse(await (await ask('GET', apiPaths.last)).json()).job?.id).toBe(job.id);
  });

  it('gives the report as a page in which nothing runs, and the export as a file', async () => {
    const { id } = await newJob();
    await ask('POST', apiPaths.captures(id), { document: tiltedSide });
    const report = await ask('GET', apiPaths.report(id, 'technician'));
    expect(await report.text()).toBe('<h1>Job 1 · deck in the window</h1>1 technician ');
    const left = await ask('GET', `${apiPaths.job(id)}/report`);
    expect(await left.text()).toContain('1 customer ');
    const other = await ask('GET', `${apiPaths.job(id)}/report?for=nobody`);
    expect(other.status).toBe(400);
    expect((await other.json()).error).toBe('for=nobody: one of customer, technician was expected.');
    expect(report.headers.get('content-type')).toBe('text/html; charset=UTF-8');
    expect(report.headers.get('content-disposition')).toBe('inline; filename="job-1.html"');
    expect(report.headers.get('content-security-policy')).toContain("default-src 'none'; style-src 'unsafe-inline'");
    expect(report.headers.get('content-security-policy')).not.toContain('script-src');
    const file = await ask('GET', `${apiPaths.job(id)}/export`);
    expect(file.headers.get('content-disposition')).toBe('attachment; filename="job-1.json"');
    expect(readJobFile(await file.json()).found).toBe(true);
  });

  it('gives a bundle, without the owner where asked, and takes it in once', async () => {
    const { id } = jobSchema.parse(
      await (await ask('POST', apiPaths.jobs, { deck: { name: 'deck' }, customer: 'C-9' })).json(),
    );
    const get = async (owner: boolean) =>
      new Uint8Array(await (await ask('GET', apiPaths.bundle(id, owner))).arrayBuffer());
    const bundle = await get(true);
    const post = async (bytes: Uint8Array, query = '', type = 'application/zip') =>
      app.request(`http://127.0.0.1:4133${apiPaths.import}${query}`, {
        method: 'POST',
        headers: { host: '127.0.0.1:4133', authorization: `Bearer ${KEY}`, 'content-type': type },
        body: new Uint8Array(bytes),
      });
    const done = async (answer: Promise<Response>) => importDoneSchema.parse(await (await answer).json()).jobs[0];
    expect(await done(post(bundle))).toEqual({ outcome: 'here-already', id, number: 1 });
    expect(await done(post(await get(false)))).toEqual({ outcome: 'here-already', id, number: 1 });
    expect(await done(post(bundle, '?as=new'))).toMatchObject({ outcome: 'imported', number: 2 });
    const changes = [{ path: ['notes'], was: '', is: 'later' }];
    await ask('PATCH', apiPaths.job(id), { changes });
    expect(await done(post(bundle))).toMatchObject({ outcome: 'here-already', number: 2 });
    for (const { id: each } of (await store.jobs()).jobs) await ask('DELETE', apiPaths.job(each));
    expect(await done(post(bundle))).toEqual({ outcome: 'imported', id, number: 1 });
    expect(await refusal(ask('GET', apiPaths.bundle('none', true)))).toBe('404 not-found');
    expect(await refusal(post(bundle, '', 'text/plain'))).toBe('400 bad-request');
    expect(await refusal(post(bundle.slice(0, 100)))).toBe('400 bad-request');
  });
});

describe('the letterhead over HTTP', () => {
  it('is kept as it was given, on every report, and a logo that is no picture is refused', async () => {
    const letterhead = { name: 'bench', address: 'lane', logo: 'data:image/png;base64,iVBORw0KGgoAAAA=' };
    expect(await (await ask('GET', apiPaths.letterhead)).json()).toEqual({ name: '', address: '', logo: null });
    expect(await (await ask('PUT', apiPaths.letterhead, letterhead)).json()).toEqual(letterhead);
    expect(
      (await ask('PUT', apiPaths.letterhead, { ...letterhead, logo: 'data:image/png;base64,PHNjcmlwdD4=' })).status,
    ).toBe(400);
    expect(await (await ask('GET', apiPaths.letterhead)).json()).toEqual(letterhead);
    const { id } = await newJob();
    expect(await (await ask('GET', apiPaths.report(id, 'customer'))).text()).toContain('customer bench');
  });
});

describe('parts over HTTP', () => {
  it('are checked by the schema of their kind, changed leaf by leaf, and deleted', async () => {
    const path = apiPaths.part('arm', 'own-arm');
    const data = { schema: 1, kind: 'arm', name: 'Own arm' };
    const made = { changes: leafChanges({}, data) };
    const put = await ask('PATCH', path, made);
    expect(partRecordSchema.parse(await put.json())).toMatchObject({ kind: 'arm', id: 'own-arm', data, revision: 1 });
    expect(partListSchema.parse(await (await ask('GET', '/api/parts?kind=arm')).json()).parts).toHaveLength(1);
    expect(partRecordSchema.parse(await (await ask('GET', path)).json()).data).toEqual(data);
    const name = (is: unknown, was?: string) => ({ changes: [{ path: ['name'], was, is }] });
    const late = await ask('PATCH', path, name('Other arm'));
    expect(late.status).toBe(409);
    expect(partConflictSchema.parse(await late.json()).current?.revision).toBe(1);
    expect(await refusal(ask('PATCH', path, name(5, 'Own arm')))).toBe('400 bad-request');
    const asDeck = { changes: leafChanges(data, { ...data, drive: 'belt' }) };
    expect(await refusal(ask('PATCH', path, asDeck))).toBe('400 bad-request');
    expect(await refusal(ask('PATCH', '/api/parts/spoon/x', made))).toBe('404 not-found');
    expect(await refusal(ask('GET', '/api/parts?kind=spoon'))).toBe('404 not-found');
    expect(await refusal(ask('PATCH', '/api/parts/arm/a%2Fb', made))).toBe('400 bad-request');
    expect((await ask('DELETE', path)).status).toBe(204);
    expect(await refusal(ask('DELETE', path))).toBe('404 not-found');
    expect(await refusal(ask('GET', path))).toBe('404 not-found');
  });
});

describe('what is not as it should be', () => {
  it('is told in one sentence with a code', async () => {
    const { id } = await newJob();
    const tilt = apiPaths.station(id, 'tilt');
    const change = { changes: [], status: { was: 'untouched', is: 'now' } };
    const cases: [string, Promise<Response> | Response][] = [
      ['404 not-found', ask('GET', '/api/jobs/none')],
      ['404 not-found', ask('GET', '/api/jobs/none/report')],
      ['404 not-found', ask('GET', '/api/jobs/none/export')],
      ['404 not-found', ask('GET', `/api/jobs/${id}/captures/none`)],
      ['404 not-found', ask('PATCH', `/api/jobs/${id}/stations/polish`, change)],
      ['404 not-found', ask('PATCH', '/api/jobs/none/stations/tilt', change)],
      ['404 not-found', ask('GET', '/api/elsewhere')],
      ['404 not-found', ask('DELETE', '/api/jobs/none')],
      ['404 not-found', ask('POST', '/jobs', {})],
      ['400 bad-request', ask('PATCH', tilt, '{"changes": [],')],
      ['400 bad-request', ask('PATCH', tilt, 'null')],
      ['400 bad-request', ask('PATCH', tilt, { status: { was: 'now', is: 'stale' } })],
      ['400 bad-request', ask('PATCH', tilt, { ...change, extra: 1 })],
      ['400 bad-request', ask('PATCH', tilt, '{"changes":[{"path":["notes"],"is":1e999}]}')],
      ['400 bad-request', ask('POST', apiPaths.captures(id), { document: { ...tiltedSide, schema: 2 } })],
      ['400 bad-request', ask('POST', apiPaths.jobs, { deck: { name: '  ' } })],
      ['415 not-json', ask('PATCH', tilt, JSON.stringify(change), { 'content-type': 'text/plain' })],
      ['415 not-json', ask('PATCH', tilt, undefined)],
      ['415 not-json', ask('PATCH', tilt, 'x', { 'content-type': 'application/jsonp' })],
    ];
    for (const [expected, response] of cases) expect(await refusal(response)).toBe(expected);
    expect(failures).toEqual([]);
    expect(given(await store.job(id)).stations.tilt.revision).toBe(0);
  });

  it('names the place in the body', async () => {
    const { id } = await newJob();
    const document = { ...tiltedSide, findings: [{ ...tiltedSide.findings[0], verdict: 'splendid' }] };
    const { error } = await (await ask('POST', apiPaths.captures(id), { document })).json();
    expect(error).toContain('document.findings.0.verdict: ');
  });

  it('refuses what is nested without end in one sentence, and stores nothing', async () => {
    const { id } = await newJob();
    const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`;
    for (const [method, path, body] of [
      ['PATCH', `/api/jobs/${id}/stations/match`, `{"changes":[{"path":["notes"],"is":${deep}}]}`],
      ['POST', apiPaths.captures(id), `{"document":${deep}}`],
      ['POST', apiPaths.import, deep],
    ] as const) {
      const answer = await app.request(`http://127.0.0.1:4133${path}`, {
        method,
        headers: { host: '127.0.0.1:4133', authorization: `Bearer ${KEY}`, 'content-type': 'application/json' },
        body,
      });
      expect([path, answer.status]).toEqual([path, 400]);
      expect((await answer.json()).error).toMatch(/^[^\n]{10,300}$/);
    }
    expect(given(await store.job(id)).captures).toEqual([]);
  });

  it('stops a body that is too large, whether its length is told or not', async () => {
    const { id } = await newJob();
    const told = ask('POST', apiPaths.captures(id), 'x', { 'content-length': String(MOST_BYTES + 1) });
    expect(await refusal(told)).toBe('413 too-large');
    let sent = 0;
    const endless = new ReadableStream({
      pull(controller) {
        sent += 65536;
        controller.enqueue(new Uint8Array(65536).fill(32));
      },
    });
    const sending = (headers: Record<string, string>) =>
      app.request(
        new Request(`http://127.0.0.1:4133${apiPaths.captures(id)}`, {
          method: 'POST',
          headers: { host: '127.0.0.1:4133', 'content-type': 'application/json', ...headers },
          body: endless,
          duplex: 'half',
        } as RequestInit),
      );
    // of one who was not let in nothing is read
    expect(await refusal(sending({}))).toBe('401 no-key');
    expect(sent).toBeLessThan(4 * 65536);
    expect(await refusal(sending({ authorization: `Bearer ${KEY}` }))).toBe('413 too-large');
    expect(sent).toBeLessThan(2 * MOST_BYTES);
  });

  it('inside the server is told without its insides, and to the terminal with them', async () => {
    const broken = createApp({
      store: {
        ...store,
        jobs: () => Promise.reject(new Error('secret /home/b/x.ts')),
        decks: () => Promise.reject(Object.assign(new Error('disk'), { code: 'SQLITE_FULL' })),
      },
      page,
      version: '0',
      port: () => 4133,
      door: doorWith(KEY),
      reportOf: () => '',
      onFailure: (error) => failures.push(error),
    });
    const at = (path: string) =>
      broken.request(path, { headers: { host: 'localhost:4133', authorization: `Bearer ${KEY}` } });
    const inside = await at('/api/jobs');
    expect(inside.status).toBe(500);
    expect(await inside.text()).not.toContain('secret');
    const full = await at('/api/decks');
    expect(full.status).toBe(503);
    expect(await full.json()).toEqual({ error: 'The disk is full; nothing was saved.', code: 'store' });
    expect(failures).toHaveLength(2);
  });
});

describe('the page', () => {
  it('is given with the right types; names with a fingerprint may be kept for good', async () => {
    const script = await ask('GET', '/assets/index-Ab3_x9Qz.js');
    expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect(script.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
    const mark = await ask('GET', '/mark.svg');
    expect(mark.headers.get('content-type')).toBe('image/svg+xml');
    expect(mark.headers.get('cache-control')).toBe('no-cache');
    const again = await ask('GET', '/mark.svg', undefined, { 'if-none-match': mark.headers.get('etag') ?? '' });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe('');
    const head = await ask('HEAD', '/mark.svg');
    expect([head.status, head.headers.get('content-type'), await head.text()]).toEqual([200, 'image/svg+xml', '']);
  });

  it('answers its own addresses, and only those', async () => {
    for (const path of ['/', '/jobs', '/jobs/id-1/hand-over', '/docs/methods/tilt']) {
      const response = await ask('GET', path);
      expect([response.status, await response.text()], path).toEqual([200, '<!doctype html><title>bench</title>']);
    }
    for (const path of [
      '/package.json',
      '/assets/gone-Ab3_x9Qz.js',
      '/..%2f..%2fetc%2fpasswd',
      '/%2e%2e/secret.txt',
      '/.git/config.x',
    ]) {
      expect(await refusal(ask('GET', path)), path).toBe('404 not-found');
    }
  });

  it('that is not built yet is told in a sentence', async () => {
    const bare = createApp({
      store,
      page: new Map(),
      version: '0',
      port: () => 4133,
      door: doorWith(KEY),
      reportOf: () => '',
    });
    const response = await bare.request('/', { headers: { host: 'localhost:4133' } });
    expect(response.status).toBe(503);
    expect(await response.text()).toContain('npm run build');
  });
});
