import { expect, it } from 'vitest';
import { demoJob } from '../core/job/demoJob.ts';
import { readCsv } from '../core/words/csv.ts';
import { countingOrigin, given } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { answerOf, foundIs, notThere } from './askedOf.fixture.ts';
import { chainRoutes } from './chainRoutes.ts';
import { historyRoutes, today } from './historyRoutes.ts';
import { transferRoutes } from './transferRoutes.ts';

const counts = { due: 0, soon: 0, byHours: 0, later: 0 };
const due = (number: number) => ({
  deck: { id: 'd', name: `deck ${number}` },
  job: { id: 'j', number },
  owner: '',
  date: null,
  hours: null,
  stylusHours: null,
  expected: null,
  state: 'by-hours',
});
const cells = (body: unknown) => readCsv(String(body)).lines.map((line) => line.cells);
const headOf = ({ headers }: { headers: Headers }) => [headers.get('content-type'), headers.get('content-disposition')];
const named = (name: string) => ['text/csv; charset=utf-8', `attachment; filename="${name}.csv"`];

it('next checks are written page after page, under one head', async () => {
  const pages = [
    { due: [due(3), due(2)], counts, next: 'x' },
    { due: [due(1)], counts },
  ];
  let asked = 0;
  const answer = await answerOf(historyRoutes, { dueList: () => pages[asked++] }, ['GET', '/due.csv']);
  expect(answer.asked).toEqual([
    ['dueList', today(), { limit: 500 }],
    ['dueList', today(), { limit: 500, after: 'x' }],
  ]);
  expect(headOf(answer)).toEqual(named('due'));
  const [head, ...rows] = cells(answer.body);
  expect(rows.map((row) => row[head.findIndex((cell) => /job/i.test(cell))])).toEqual(['3', '2', '1']);
  expect(today()).toMatch(/^\d{4}-\d{2}-\d{2}$/);
});

it('jobs are written whole, or one page where that is asked for', async () => {
  const store = await openStore(':memory:', countingOrigin());
  for (const name of ['a', 'b', 'c']) given(await store.createJob({ deck: { name } }));
  const ask = (query: string) =>
    answerOf(historyRoutes, { jobs: (given: never) => store.jobs(given) }, ['GET', `/jobs.csv${query}`]);
  const whole = await ask('');
  expect(headOf(whole)).toEqual(named('jobs'));
  expect(cells(whole.body)).toHaveLength(4);
  expect(whole.asked).toEqual([['jobs', { limit: 500 }]]);
  const page = await ask('?limit=2');
  expect([cells(page.body).length, page.asked]).toEqual([3, [['jobs', { limit: 2 }]]]);
  expect(headOf(page)).toEqual(named('jobs'));
  await store.close();
});

it('lists that come whole are named after what they hold', async () => {
  const list = (routes: Parameters<typeof answerOf>[0], answers: Record<string, unknown>, path: string) =>
    answerOf(routes, answers, ['GET', path]);
  const styli = await list(historyRoutes, { stylusLedger: { styli: [] } }, '/styli.csv');
  expect([headOf(styli), styli.asked]).toEqual([named('stylus-hours'), [['stylusLedger']]]);
  const history = foundIs({ deck: { id: 'd', name: 'deck', description: '' }, jobs: [], older: 0, figures: [] });
  const deck = await list(historyRoutes, { deckHistory: history }, '/decks/d/history.csv');
  expect([headOf(deck), deck.asked]).toEqual([named('deck-history'), [['deckHistory', 'd']]]);
  const alarms = await list(
    chainRoutes,
    { 'chains.alarms': { since: '', alarms: [], says: [] } },
    '/alarms.csv?since=2026-03-04T09:30:00Z',
  );
  expect([headOf(alarms), alarms.asked]).toEqual([named('alarms'), [['chains.alarms', '2026-03-04T09:30:00.000Z']]]);
  const references = await list(chainRoutes, { 'chains.references': { references: [] } }, '/references.csv');
  expect([headOf(references), references.asked]).toEqual([named('references'), [['chains.references', today()]]]);
});

it('chains and a chain’s history are gone through to their end', async () => {
  const chain = (name: string) => ({ id: name, name, parts: {}, newest: null });
  let page = 0;
  const lists = [{ chains: [chain('a')], next: 'a' }, { chains: [chain('b')] }];
  const all = await answerOf(chainRoutes, { 'chains.list': () => lists[page++] }, ['GET', '/chains.csv']);
  expect(all.asked).toEqual([
    ['chains.list', { limit: 500 }],
    ['chains.list', { limit: 500, after: 'a' }],
  ]);
  expect(headOf(all)).toEqual(named('chains'));
  expect(
    cells(all.body)
      .map(([name]) => name)
      .slice(1),
  ).toEqual(['a', 'b']);
  page = 0;
  const readings = { chain: { id: 'c', name: 'n' }, readings: [] };
  const pages = [foundIs({ ...readings, next: 'x' }), foundIs(readings)];
  const answers = { 'chains.chain': foundIs({}), 'chains.history': () => pages[page++] };
  const history = await answerOf(chainRoutes, answers, ['GET', '/chains/c/history.csv']);
  expect(history.asked).toEqual([
    ['chains.chain', 'c'],
    ['chains.history', 'c', { limit: 500 }],
    ['chains.history', 'c', { limit: 500, before: 'x' }],
  ]);
  expect(headOf(history)).toEqual(named('chain-history'));
  expect(cells(history.body)).toHaveLength(1);
});

it('a job goes out as a file of its number, without its owner where that is asked for, and comes in as it is told', async () => {
  const routes = (store: Store) => transferRoutes(store, 'platterside 1');
  const demo = demoJob({ at: '2026-03-04T09:00:00.000Z', madeBy: 'x' });
  const job = { ...demo, job: { ...demo.job, customer: 'C-9' } };
  const out = (path: string) => answerOf(routes, { exportJob: foundIs(job) }, ['GET', path]);
  const whole = await out('/jobs/j/export');
  expect(whole.asked).toEqual([['exportJob', 'j', 'platterside 1']]);
  expect([whole.headers.get('content-type'), whole.headers.get('content-disposition')]).toEqual([
    'application/json; charset=utf-8',
    'attachment; filename="job-41.json"',
  ]);
  expect((whole.body as typeof job).job.customer).toBe('C-9');
  expect(((await out('/jobs/j/export?owner=left-out')).body as typeof job).job.customer).toBe('');
  const bundle = await out('/jobs/j/bundle');
  expect([bundle.headers.get('content-type'), bundle.headers.get('content-disposition')]).toEqual([
    'application/zip',
    'attachment; filename="job-41.platterside.zip"',
  ]);
  for (const path of ['/jobs/j/export', '/jobs/j/bundle'])
    expect((await answerOf(routes, { exportJob: notThere }, ['GET', path])).status).toBe(404);
  const done = { outcome: 'imported', id: 'j', number: 41 };
  const taken = (query: string, body: unknown) =>
    answerOf(routes, { importJob: done }, ['POST', `/import${query}`, body]);
  for (const [query, asNew] of [
    ['', false],
    ['?as=new', true],
    ['?as=other', false],
  ] as const) {
    const answer = await taken(query, JSON.parse(JSON.stringify(job)));
    expect(answer.body).toEqual({ jobs: [done], recordings: 0 });
    expect(answer.asked.map(([name, , how]) => [name, how])).toEqual([['importJob', { asNew }]]);
  }
  const refused = await taken('', { schema: 1 });
  expect([refused.status, refused.asked]).toEqual([400, []]);
  expect((refused.body as { error: string }).error).toMatch(/^The file cannot be imported: .+\.$/);
});

it.each([
  ['application/zip', 400],
  ['application/json;x', 400],
  ['APPLICATION/ZIP ', 400],
  ['application/zipped', 415],
  ['xapplication/zip', 415],
  ['text/plain', 415],
])('a file sent as %s is looked into, or named by its type', async (type, kind) => {
  const routes = transferRoutes({} as Store, 'x');
  let said = '';
  routes.onError((error, c) => {
    said = error.message;
    return c.text('', 400);
  });
  await routes.request('/import', { method: 'POST', headers: { 'content-type': type }, body: 'x' });
  expect(said).toMatch(
    kind === 400 ? /^The file cannot be imported: / : /^The file was sent as '.*'; application\/zip was expected\.$/,
  );
});
