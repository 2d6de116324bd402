import type { Hono } from 'hono';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  apiErrorSchema,
  apiPaths,
  captureAddedSchema,
  captureRecordSchema,
  deckListSchema,
  healthSchema,
  type Job,
  jobConflictSchema,
  jobListSchema,
  jobSchema,
  lastSchema,
  partConflictSchema,
  partListSchema,
  partRecordSchema,
  stationConflictSchema,
} from '../core/job/api.ts';
import { readJobFile } from '../core/job/jobFile.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { countingOrigin, given } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { createApp } from './app.ts';
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

beforeEach(async () => {
  failures = [];
  store = await openStore(':memory:', countingOrigin());
  app = createApp({
    store,
    page,
    version: '0.0.1',
    port: () => 4133,
    reportOf: (job, captures) => `<h1>${job.title}</h1>${captures.length}`,
    onFailure: (error) => failures.push(error),
  });
});
afterEach(() => store.close());

const ask = (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) =>
  app.request(`http://127.0.0.1:4133${path}`, {
    method,
    headers: {
      host: '127.0.0.1:4133',
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
    expect(await store.jobs()).toHaveLength(1);
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
    const changed = await ask('PATCH', apiPaths.job(job.id), { revision: 0, customer: 'C-3' });
    expect(jobSchema.parse(await changed.json())).toMatchObject({ customer: 'C-3', revision: 1 });
    const late = await ask('PATCH', apiPaths.job(job.id), { revision: 0, customer: 'C-4' });
    expect(late.status).toBe(409);
    expect(jobConflictSchema.parse(await late.json()).current.customer).toBe('C-3');
  });

  it('gives the current state to a tab that comes late', async () => {
    const { id } = await newJob();
    const path = apiPaths.station(id, 'weigh');
    const first = await ask('PUT', path, { revision: 0, status: 'now', data: { typed: '1.50' } });
    expect(jobSchema.parse(await first.json()).stations.weigh.revision).toBe(1);
    const late = await ask('PUT', path, { revision: 0, status: 'now', data: { typed: '1.8' } });
    expect(late.status).toBe(409);
    const { current } = stationConflictSchema.parse(await late.json());
    expect(current.data).toEqual({ typed: '1.50' });
    const again = await ask('PUT', path, { revision: current.revision, status: 'done', data: { typed: '1.8' } });
    expect(jobSchema.parse(await again.json()).stations.weigh).toMatchObject({ status: 'done', revision: 2 });
  });

  it('marks what a move makes stale', async () => {
    const { id } = await newJob();
    await ask('PUT', apiPaths.station(id, 'tilt'), { revision: 0, status: 'done', data: {} });
    const moved = await ask('POST', apiPaths.moves(id), { move: 'slide', station: 'place' });
    expect(jobSchema.parse(await moved.json()).stations.tilt.status).toBe('stale');
  });

  it('takes captures, tells their documents, and keeps outcomes', async () => {
    const { id } = await newJob();
    const response = await ask('POST', apiPaths.captures(id), { document: tiltedSide, station: 'intake' });
    expect(response.status).toBe(201);
    const { captureId, job } = captureAddedSchema.parse(await response.json());
    expect((await ask('POST', apiPaths.captures(id), { document: tiltedSide })).status).toBe(200);
    const record = captureRecordSchema.parse(await (await ask('GET', apiPaths.capture(id, captureId))).json());
    expect(record.document).toEqual(tiltedSide);
    const outcome = await ask('POST', apiPaths.outcome(id, job.advice[0].id), { did: 'done', note: 'by hand' });
    expect(jobSchema.parse(await outcome.json()).advice[0].outcome).toMatchObject({ did: 'done', note: 'by hand' });
    const later = await ask('POST', apiPaths.captures(id), { document: straightSide });
    const after = captureAddedSchema.parse(await later.json()).job;
    expect(after.advice[0].checks).toHaveLength(2);
    expect(after.beforeAfter).toHaveLength(5);
  });

  it('remembers where the page was left', async () => {
    expect(await (await ask('GET', apiPaths.last)).json()).toEqual({ job: null, station: null });
    const job = await newJob();
    const set = await ask('PUT', apiPaths.last, { jobId: job.id, station: 'tilt' });
    expect(lastSchema.parse(await set.json())).toEqual({ job, station: 'tilt' });
    expect(lastSchema.parse(await (await ask('GET', apiPaths.last)).json()).job?.id).toBe(job.id);
  });

  it('gives the report as a page in which nothing runs, and the export as a file', async () => {
    const { id } = await newJob();
    await ask('POST', apiPaths.captures(id), { document: tiltedSide });
    const report = await ask('GET', apiPaths.report(id));
    expect(await report.text()).toBe('<h1>Job 1 · deck in the window</h1>1');
    expect(report.headers.get('content-type')).toBe('text/html; charset=UTF-8');
    expect(report.headers.get('content-disposition')).toBe('inline; filename="job-1.html"');
    expect(report.headers.get('content-security-policy')).toContain("default-src 'none'; style-src 'unsafe-inline'");
    expect(report.headers.get('content-security-policy')).not.toContain('script-src');
    const file = await ask('GET', apiPaths.export(id));
    expect(file.headers.get('content-disposition')).toBe('attachment; filename="job-1.json"');
    expect(readJobFile(await file.json()).found).toBe(true);
  });
});

describe('parts over HTTP', () => {
  it('are checked by the schema of their kind, changed by revision, and taken away', async () => {
    const path = apiPaths.part('arm', 'own-arm');
    const data = { schema: 1, kind: 'arm', name: 'Own arm' };
    const put = await ask('PUT', path, { revision: 0, data });
    expect(partRecordSchema.parse(await put.json())).toMatchObject({ kind: 'arm', id: 'own-arm', data, revision: 1 });
    expect(partListSchema.parse(await (await ask('GET', '/api/parts?kind=arm')).json()).parts).toHaveLength(1);
    expect(partRecordSchema.parse(await (await ask('GET', path)).json()).data).toEqual(data);
    const late = await ask('PUT', path, { revision: 0, data });
    expect(late.status).toBe(409);
    expect(partConflictSchema.parse(await late.json()).current?.revision).toBe(1);
    expect(await refusal(ask('PUT', path, { revision: 1, data: { ...data, name: 5 } }))).toBe('400 bad-request');
    expect(await refusal(ask('PUT', path, { revision: 1, data: { ...data, kind: 'deck' } }))).toBe('400 bad-request');
    expect(await refusal(ask('PUT', '/api/parts/spoon/x', { revision: 0, data }))).toBe('404 not-found');
    expect(await refusal(ask('GET', '/api/parts?kind=spoon'))).toBe('404 not-found');
    expect(await refusal(ask('PUT', '/api/parts/arm/a%2Fb', { revision: 0, data }))).toBe('400 bad-request');
    expect((await ask('DELETE', path)).status).toBe(204);
    expect(await refusal(ask('DELETE', path))).toBe('404 not-found');
    expect(await refusal(ask('GET', path))).toBe('404 not-found');
  });
});

describe('what is not as it should be', () => {
  it('is told in one sentence with a code', async () => {
    const { id } = await newJob();
    const tilt = apiPaths.station(id, 'tilt');
    const change = { revision: 0, status: 'now', data: {} };
    const cases: [string, Promise<Response> | Response][] = [
      ['404 not-found', ask('GET', '/api/jobs/none')],
      ['404 not-found', ask('GET', '/api/jobs/none/report')],
      ['404 not-found', ask('GET', '/api/jobs/none/export')],
      ['404 not-found', ask('GET', `/api/jobs/${id}/captures/none`)],
      ['404 not-found', ask('PUT', `/api/jobs/${id}/stations/polish`, change)],
      ['404 not-found', ask('PUT', '/api/jobs/none/stations/tilt', change)],
      ['404 not-found', ask('GET', '/api/elsewhere')],
      ['404 not-found', ask('DELETE', `/api/jobs/${id}`)],
      ['404 not-found', ask('POST', '/jobs', {})],
      ['400 bad-request', ask('PUT', tilt, '{"revision": 0,')],
      ['400 bad-request', ask('PUT', tilt, 'null')],
      ['400 bad-request', ask('PUT', tilt, { ...change, status: 'stale' })],
      ['400 bad-request', ask('PUT', tilt, { ...change, extra: 1 })],
      ['400 bad-request', ask('PUT', tilt, '{"revision":0,"status":"now","data":{"x":1e999}}')],
      ['400 bad-request', ask('POST', apiPaths.captures(id), { document: { ...tiltedSide, schema: 2 } })],
      ['400 bad-request', ask('POST', apiPaths.jobs, { deck: { name: '  ' } })],
      ['415 not-json', ask('PUT', tilt, JSON.stringify(change), { 'content-type': 'text/plain' })],
      ['415 not-json', ask('PUT', tilt, undefined)],
      ['415 not-json', ask('PUT', tilt, 'x', { 'content-type': 'application/jsonp' })],
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
    const request = new Request(`http://127.0.0.1:4133${apiPaths.captures(id)}`, {
      method: 'POST',
      headers: { host: '127.0.0.1:4133', 'content-type': 'application/json' },
      body: endless,
      duplex: 'half',
    } as RequestInit);
    expect(await refusal(app.request(request))).toBe('413 too-large');
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
      reportOf: () => '',
      onFailure: (error) => failures.push(error),
    });
    const at = (path: string) => broken.request(path, { headers: { host: 'localhost:4133' } });
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
    const bare = createApp({ store, page: new Map(), version: '0', port: () => 4133, reportOf: () => '' });
    const response = await bare.request('/', { headers: { host: 'localhost:4133' } });
    expect(response.status).toBe(503);
    expect(await response.text()).toContain('npm run build');
  });
});
