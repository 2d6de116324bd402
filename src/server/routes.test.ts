/** Each address asks the store its one question, with what came in the address and the body, and passes the answer on. */
import { describe, expect, it } from 'vitest';
import { leafChanges } from '../core/job/leafPaths.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { answerOf, foundIs, notThere } from './askedOf.fixture.ts';
import { chainRoutes } from './chainRoutes.ts';
import { historyRoutes, today } from './historyRoutes.ts';
import { jobRoutes } from './jobRoutes.ts';
import { partRoutes } from './partRoutes.ts';
import { photographRoutes } from './photographRoutes.ts';
import { shopRoutes } from './shopRoutes.ts';

const ofJobs = (store: Parameters<typeof jobRoutes>[0]) => jobRoutes(store, (job) => `report of ${job.id}`);
const changes = [{ path: ['notes'], was: '', is: 'x' }];
const ANSWER = { told: 'as it is' };
const noted = { outcome: 'changed', value: ANSWER };
const key = '0123456789abcdef';
const print = 'a'.repeat(64);
const fitting = { kind: 'stylus', name: 'S', was: '', station: 'match', hours: null };
const MOVE = { move: 'slide', station: 'place', note: '' };
const NEW_JOB = { deck: { name: 'd', description: '' }, customer: '', notes: '' };
const OUTCOME = { did: 'done', note: '' };
const capture = { document: JSON.parse(JSON.stringify(tiltedSide)), station: 'run', practice: true };
const photograph = { id: 'ph', station: 'fit', jpeg: 'x'.repeat(40) };
const letterhead = { name: 'bench', address: 'lane', logo: null };

describe('an address', () => {
  it.each([
    [ofJobs, 'GET', '/letterhead', undefined, ['letterhead'], letterhead, 200],
    [ofJobs, 'PUT', '/letterhead', letterhead, ['setLetterhead', letterhead], undefined, 200, letterhead],
    [ofJobs, 'GET', '/decks', undefined, ['decks', { limit: 500 }], ANSWER, 200],
    [ofJobs, 'GET', '/decks?limit=3&words=a', undefined, ['decks', { limit: 3, words: 'a' }], ANSWER, 200],
    [ofJobs, 'GET', '/jobs', undefined, ['jobs', { limit: 500 }], ANSWER, 200],
    [ofJobs, 'GET', '/jobs?limit=2&before=9', undefined, ['jobs', { limit: 2, before: 9 }], ANSWER, 200],
    [ofJobs, 'DELETE', '/jobs/j', undefined, ['deleteJob', 'j'], foundIs(ANSWER), 200],
    [ofJobs, 'POST', '/jobs', NEW_JOB, ['createJob', NEW_JOB], foundIs(ANSWER), 201],
    [ofJobs, 'GET', '/jobs/j', undefined, ['job', 'j'], foundIs(ANSWER), 200],
    [ofJobs, 'PUT', '/jobs/j/set-aside', { setAside: { why: 'w' } }, ['setJobAside', 'j', 'w'], foundIs(ANSWER), 200],
    [ofJobs, 'PUT', '/jobs/j/set-aside', { setAside: null }, ['setJobAside', 'j', null], foundIs(ANSWER), 200],
    [ofJobs, 'PATCH', '/jobs/j', { changes }, ['changeJob', 'j', { changes }], noted, 200],
    [ofJobs, 'PATCH', '/jobs/j/stations/tilt', { changes }, ['changeStation', 'j', 'tilt', { changes }], noted, 200],
    [ofJobs, 'POST', '/jobs/j/moves', MOVE, ['move', 'j', MOVE], foundIs(ANSWER), 200],
    [ofJobs, 'POST', '/jobs/j/moves/undo', { step: 's' }, ['undoMove', 'j', { step: 's' }], foundIs(ANSWER), 200],
    [
      ofJobs,
      'POST',
      '/jobs/j/captures',
      capture,
      ['addCapture', 'j', capture],
      foundIs({ added: ANSWER, fresh: true }),
      201,
    ],
    [
      ofJobs,
      'POST',
      '/jobs/j/captures',
      capture,
      ['addCapture', 'j', capture],
      foundIs({ added: ANSWER, fresh: false }),
      200,
    ],
    [ofJobs, 'GET', '/jobs/j/captures/c', undefined, ['capture', 'j', 'c'], foundIs(ANSWER), 200],
    [
      ofJobs,
      'PATCH',
      '/jobs/j/captures/c',
      { kind: 'pass' },
      ['changeCapture', 'j', 'c', { kind: 'pass' }],
      foundIs(ANSWER),
      200,
    ],
    [ofJobs, 'POST', '/jobs/j/fittings', fitting, ['addFitting', 'j', fitting], foundIs(ANSWER), 201],
    [ofJobs, 'DELETE', '/jobs/j/fittings/f', undefined, ['takeFittingBack', 'j', 'f'], foundIs(ANSWER), 200],
    [ofJobs, 'POST', '/jobs/j/advice/a/outcome', OUTCOME, ['setOutcome', 'j', 'a', OUTCOME], foundIs(ANSWER), 200],
    [partRoutes, 'GET', '/parts', undefined, ['parts', undefined], [ANSWER], 200, { parts: [ANSWER] }],
    [partRoutes, 'GET', '/parts?kind=record', undefined, ['parts', 'record'], [], 200, { parts: [] }],
    [partRoutes, 'GET', '/parts/arm/x', undefined, ['part', 'arm', 'x'], foundIs(ANSWER), 200],
    [
      partRoutes,
      'PATCH',
      `/parts/deck/${'x'.repeat(64)}`,
      { changes },
      ['changePart', 'deck', 'x'.repeat(64), { changes }],
      noted,
      200,
    ],
    [partRoutes, 'DELETE', '/parts/arm/x', undefined, ['deletePart', 'arm', 'x'], foundIs(null), 204, ''],
    [
      photographRoutes,
      'PATCH',
      '/jobs/j/photographs/p',
      { note: 'n' },
      ['changePhotograph', 'j', 'p', { note: 'n' }],
      foundIs(ANSWER),
      200,
    ],
    [
      photographRoutes,
      'DELETE',
      '/jobs/j/photographs/p',
      undefined,
      ['deletePhotograph', 'j', 'p'],
      foundIs(ANSWER),
      200,
    ],
    [shopRoutes, 'GET', '/shop', undefined, ['shop'], ANSWER, 200],
    [shopRoutes, 'PUT', '/shop', {}, ['setShop', {}], ANSWER, 200],
    [shopRoutes, 'GET', `/learned/${key}`, undefined, ['learned', key], ANSWER, 200],
    [historyRoutes, 'GET', '/decks/d/history', undefined, ['deckHistory', 'd'], foundIs(ANSWER), 200],
    [historyRoutes, 'GET', '/styli?limit=7', undefined, ['stylusLedger', { limit: 7 }], ANSWER, 200],
    [historyRoutes, 'GET', '/due?limit=7', undefined, ['dueList', today(), { limit: 7 }], ANSWER, 200],
    [chainRoutes, 'GET', '/chains', undefined, ['chains.list', { limit: 100 }], ANSWER, 200],
    [
      chainRoutes,
      'GET',
      '/chains?limit=500&after=a',
      undefined,
      ['chains.list', { limit: 500, after: 'a' }],
      ANSWER,
      200,
    ],
    [
      chainRoutes,
      'PUT',
      '/jobs/j/chain',
      { chain: 'c' },
      ['chains.setJob', 'j', 'c'],
      foundIs(null),
      200,
      { chain: 'c' },
    ],
    [chainRoutes, 'GET', '/chains/c/charts', undefined, ['chains.charts', 'c', undefined], foundIs(ANSWER), 200],
    [
      chainRoutes,
      'GET',
      `/chains/c/charts?record=${key}`,
      undefined,
      ['chains.charts', 'c', key],
      foundIs(ANSWER),
      200,
    ],
    [
      chainRoutes,
      'GET',
      '/chains/c/charts?record=none',
      undefined,
      ['chains.charts', 'c', 'none'],
      foundIs(ANSWER),
      200,
    ],
    [
      chainRoutes,
      'GET',
      '/chains/c/history?limit=1&before=x',
      undefined,
      ['chains.history', 'c', { limit: 1, before: 'x' }],
      foundIs(ANSWER),
      200,
    ],
    [
      chainRoutes,
      'GET',
      '/alarms?since=2026-03-04T09:30:00Z',
      undefined,
      ['chains.alarms', '2026-03-04T09:30:00.000Z'],
      ANSWER,
      200,
    ],
    [chainRoutes, 'GET', '/references', undefined, ['chains.references', today()], ANSWER, 200],
    [
      chainRoutes,
      'PATCH',
      `/references/${print}`,
      { changes },
      ['chains.changeReference', print, { changes }],
      noted,
      200,
    ],
    [
      chainRoutes,
      'DELETE',
      `/references/${print}`,
      undefined,
      ['chains.removeReference', print],
      foundIs(null),
      204,
      '',
    ],
  ] as const)(
    '%o %s %s asks the store once',
    async (routes, method, path, body, asks, answer, status, told: unknown = ANSWER) => {
      const answered = await answerOf(routes, { [asks[0]]: answer }, [method, path, body]);
      expect(answered.asked).toEqual([asks]);
      expect(answered.status).toBe(status);
      const plain = asks[0] === 'letterhead' ? letterhead : told;
      expect(answered.body).toEqual(plain);
    },
  );

  it.each([
    [ofJobs, 'DELETE', '/jobs/j', undefined, 'deleteJob'],
    [ofJobs, 'POST', '/jobs', { deck: { id: 'd' } }, 'createJob'],
    [ofJobs, 'GET', '/jobs/j', undefined, 'job'],
    [ofJobs, 'PUT', '/jobs/j/set-aside', { setAside: null }, 'setJobAside'],
    [ofJobs, 'PATCH', '/jobs/j', { changes }, 'changeJob'],
    [ofJobs, 'PATCH', '/jobs/j/stations/tilt', { changes }, 'changeStation'],
    [ofJobs, 'POST', '/jobs/j/moves', MOVE, 'move'],
    [ofJobs, 'POST', '/jobs/j/moves/undo', { step: 's' }, 'undoMove'],
    [ofJobs, 'POST', '/jobs/j/captures', capture, 'addCapture'],
    [ofJobs, 'GET', '/jobs/j/captures/c', undefined, 'capture'],
    [ofJobs, 'PATCH', '/jobs/j/captures/c', { kind: 'pass' }, 'changeCapture'],
    [ofJobs, 'POST', '/jobs/j/fittings', fitting, 'addFitting'],
    [ofJobs, 'DELETE', '/jobs/j/fittings/f', undefined, 'takeFittingBack'],
    [ofJobs, 'POST', '/jobs/j/advice/a/outcome', OUTCOME, 'setOutcome'],
    [ofJobs, 'GET', '/jobs/j/report', undefined, 'job'],
    [ofJobs, 'PUT', '/last', { jobId: 'j', station: 'tilt' }, 'setLast'],
    [partRoutes, 'GET', '/parts/arm/x', undefined, 'part'],
    [partRoutes, 'DELETE', '/parts/arm/x', undefined, 'deletePart'],
    [photographRoutes, 'GET', '/jobs/j/photographs/p', undefined, 'jpeg'],
    [photographRoutes, 'PATCH', '/jobs/j/photographs/p', { note: 'n' }, 'changePhotograph'],
    [photographRoutes, 'DELETE', '/jobs/j/photographs/p', undefined, 'deletePhotograph'],
    [historyRoutes, 'GET', '/decks/d/history', undefined, 'deckHistory'],
    [historyRoutes, 'GET', '/decks/d/history.csv', undefined, 'deckHistory'],
    [chainRoutes, 'PUT', '/jobs/j/chain', { chain: null }, 'chains.setJob'],
    [chainRoutes, 'GET', '/chains/c/charts', undefined, 'chains.charts'],
    [chainRoutes, 'GET', '/chains/c/history', undefined, 'chains.history'],
    [chainRoutes, 'GET', '/chains/c/history.csv', undefined, 'chains.chain'],
    [chainRoutes, 'DELETE', `/references/${print}`, undefined, 'chains.removeReference'],
  ] as const)('%o %s %s says where there is no such thing', async (routes, method, path, body, asks) => {
    const { status, body: told } = await answerOf(routes, { [asks]: notThere }, [method, path, body]);
    expect([status, told]).toEqual([404, { code: 'not-found', error: 'It is not there.' }]);
  });

  it.each([
    [ofJobs, 'GET', '/jobs?limit=0', undefined, /^The address asks for no such page; limit: .*\.$/],
    [ofJobs, 'GET', '/decks?limit=x', undefined, /^The address asks for no such page; limit: .*\.$/],
    [ofJobs, 'POST', '/jobs/j/moves', {}, /^The body is not what was expected; /],
    [ofJobs, 'PUT', '/last', {}, /^The body is not what was expected; /],
    [
      partRoutes,
      'PATCH',
      `/parts/arm/${'x'.repeat(65)}`,
      { changes },
      "A part's id is 1 to 64 letters, digits, - or _.",
    ],
    [partRoutes, 'PATCH', '/parts/arm/a.b', { changes }, "A part's id is 1 to 64 letters, digits, - or _."],
    [shopRoutes, 'GET', `/learned/${key}0`, undefined, "A record's key is 16 digits or letters a to f."],
    [shopRoutes, 'GET', `/learned/x${key.slice(1)}`, undefined, "A record's key is 16 digits or letters a to f."],
    [shopRoutes, 'GET', `/learned/0${key}`, undefined, "A record's key is 16 digits or letters a to f."],
    [historyRoutes, 'GET', '/styli?limit=0', undefined, /^limit: /],
    [historyRoutes, 'GET', '/due?limit=0', undefined, /^limit: /],
    [historyRoutes, 'GET', '/jobs.csv?limit=0', undefined, /^The address asks for no such page; /],
    [chainRoutes, 'GET', '/chains?limit=501', undefined, /^limit: /],
    [chainRoutes, 'GET', `/chains?after=${'x'.repeat(201)}`, undefined, /^after: /],
    [chainRoutes, 'GET', `/chains/c/history?before=${'x'.repeat(401)}`, undefined, /^before: /],
    [
      chainRoutes,
      'GET',
      `/chains/c/charts?record=${key}0`,
      undefined,
      "record: a record's key is 16 digits or letters a to f, or none.",
    ],
    [chainRoutes, 'GET', '/chains/c/charts?record=nonesuch', undefined, /^record: /],
    [chainRoutes, 'GET', '/alarms?since=today', undefined, 'since: a time is written as 2026-03-04T09:30:00.000Z.'],
  ] as const)('%o %s %s is refused before anything is asked', async (routes, method, path, body, sentence) => {
    const answered = await answerOf(routes, {}, [method, path, body]);
    expect([answered.status, answered.asked]).toEqual([400, []]);
    expect((answered.body as { error: string }).error).toMatch(sentence);
  });
});

it('a part or a station that is none is told with those that there are', async () => {
  const part = await answerOf(partRoutes, {}, ['GET', '/parts/spoon/x']);
  expect([part.status, (part.body as { error: string }).error]).toEqual([
    404,
    expect.stringMatching(/^There are no parts of kind spoon; there are: .*deck.*, record\.$/),
  ]);
  const station = await answerOf(ofJobs, {}, ['PATCH', '/jobs/j/stations/polish', { changes }]);
  expect([station.status, station.body]).toEqual([404, { code: 'not-found', error: 'There is no station polish.' }]);
});

it('what cannot be kept, and what was changed elsewhere, is named by what it is of', async () => {
  const refused = { outcome: 'refused', why: 'it is none' };
  const conflict = { outcome: 'conflict', current: { a: 1 }, conflicts: [{ path: ['a'], yours: 2, theirs: 1 }] };
  for (const [routes, path, asks, what] of [
    [ofJobs, '/jobs/j', 'changeJob', 'The job'],
    [ofJobs, '/jobs/j/stations/tilt', 'changeStation', 'The station'],
    [partRoutes, '/parts/arm/x', 'changePart', 'The arm'],
    [chainRoutes, `/references/${print}`, 'chains.changeReference', 'The reference recording'],
  ] as const) {
    const kept = await answerOf(routes, { [asks]: refused }, ['PATCH', path, { changes: leafChanges({}, { a: 'b' }) }]);
    expect([kept.status, kept.body]).toEqual([
      400,
      { code: 'bad-request', error: `${what} cannot keep this; it is none.` },
    ]);
    const late = await answerOf(routes, { [asks]: conflict }, ['PATCH', path, { changes }]);
    expect(late.status).toBe(409);
    expect(late.body).toEqual({
      code: 'conflict',
      error: `${what} was changed elsewhere since; "conflicts" has both values, "current" what is kept now.`,
      current: conflict.current,
      conflicts: conflict.conflicts,
    });
  }
});

it('the place where the page was left is told with its job, and as none where the job is gone', async () => {
  const last = (place: unknown, job: unknown = notThere) => answerOf(ofJobs, { last: place, job }, ['GET', '/last']);
  expect(await last(null)).toMatchObject({ body: { job: null, station: null }, asked: [['last']] });
  const place = { jobId: 'j', station: 'tilt' };
  expect((await last(place)).body).toEqual({ job: null, station: null });
  expect(await last(place, foundIs({ id: 'j' }))).toMatchObject({
    body: { job: { id: 'j' }, station: 'tilt' },
    asked: [['last'], ['job', 'j']],
  });
  const set = await answerOf(ofJobs, { setLast: foundIs(null) }, ['PUT', '/last', place]);
  expect([set.status, set.body, set.asked]).toEqual([200, place, [['setLast', place]]]);
});

it('a report brings its photographs to the technician alone, and headers under which nothing runs', async () => {
  const answers = { job: foundIs({ id: 'j', number: 7 }), photographs: [], letterhead, captures: [] };
  const report = (query: string) => answerOf(ofJobs, answers, ['GET', `/jobs/j/report${query}`]);
  const left = await report('');
  expect(left.asked).toEqual([['job', 'j'], ['letterhead'], ['captures', 'j']]);
  expect([left.status, left.body]).toEqual([200, 'report of j']);
  expect(left.headers.get('content-disposition')).toBe('inline; filename="job-7.html"');
  expect(left.headers.get('content-security-policy')).toContain("default-src 'none'; style-src");
  expect((await report('?for=customer')).asked).toEqual(left.asked);
  expect((await report('?for=technician')).asked).toEqual([
    ['job', 'j'],
    ['photographs', 'j'],
    ['letterhead'],
    ['captures', 'j'],
  ]);
  const other = await report('?for=nobody');
  expect([other.status, other.asked]).toEqual([400, [['job', 'j']]]);
});

it('a photograph is given as a JPEG; one that cannot be kept is refused with its reason', async () => {
  const given = await answerOf(photographRoutes, { jpeg: foundIs(new Uint8Array([65, 66])) }, [
    'GET',
    '/jobs/j/photographs/p',
  ]);
  expect([given.status, given.body, given.headers.get('content-type')]).toEqual([200, 'AB', 'image/jpeg']);
  expect(given.asked).toEqual([['jpeg', 'j', 'p']]);
  const add = (answer: unknown) =>
    answerOf(photographRoutes, { addPhotograph: answer }, ['POST', '/jobs/j/photographs', photograph]);
  expect(await add(foundIs(ANSWER))).toMatchObject({
    status: 201,
    body: ANSWER,
    asked: [['addPhotograph', 'j', photograph]],
  });
  expect(await add(notThere)).toMatchObject({ status: 404 });
  expect(await add({ outcome: 'refused', why: 'it is none' })).toMatchObject({
    status: 400,
    body: { code: 'bad-request', error: 'The photograph is not kept: it is none.' },
  });
});

it('alarms of a day are asked for where no time is named', async () => {
  const { asked } = await answerOf(chainRoutes, { 'chains.alarms': ANSWER }, ['GET', '/alarms']);
  const ago = Date.now() - Date.parse(String(asked[0][1]));
  expect(ago).toBeGreaterThanOrEqual(86_400_000);
  expect(ago).toBeLessThan(86_400_000 + 60_000);
});
