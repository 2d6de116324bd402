import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { jobListSchema, jobSchema } from '../core/job/api.ts';
import { demoJob } from '../core/job/demoJob.ts';
import { demoParts } from '../core/job/demoParts.ts';
import { leafChanges } from '../core/job/leafPaths.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { freshStore } from './fresh.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import type { Store } from './store.ts';

let store: Store;
beforeEach(async () => {
  store = await freshStore(countingOrigin());
});
afterEach(() => store.close());

const newJob = async (name = 'deck in the window') =>
  given(await store.createJob({ deck: { name, description: 'belt drive' } }));

describe('jobs', () => {
  it('are numbered from one and named after their deck', async () => {
    const job = await newJob();
    expect(job).toMatchObject({
      number: 1,
      title: 'Job 1 · deck in the window',
      revision: 0,
      captures: [],
      advice: [],
    });
    expect(jobSchema.parse(job)).toEqual(job);
    const second = given(await store.createJob({ title: 'Spring check', deck: { id: job.deck.id }, customer: 'C-7' }));
    expect(second).toMatchObject({ number: 2, title: 'Spring check', deck: job.deck, customer: 'C-7' });
    expect((await store.jobs()).jobs.map((entry) => entry.number)).toEqual([2, 1]);
    expect(await store.decks()).toEqual({ decks: [{ ...job.deck, jobs: [second.id, job.id] }] });
  });

  it('are listed with their states, all of them or those of one deck', async () => {
    const job = await newJob();
    await newJob('another');
    await store.changeStation(job.id, 'fit', { status: { was: 'untouched', is: 'done' } });
    await store.addCapture(job.id, { document: tiltedSide });
    const listed = (await store.jobs({ deck: job.deck.id })).jobs;
    expect(listed).toHaveLength(1);
    expect(listed[0]).toMatchObject({ id: job.id, captures: 1, stations: { fit: 'done', tilt: 'untouched' } });
    const list = await store.jobs();
    expect(jobListSchema.parse(list)).toEqual(list);
  });

  it('are found by id or by the number that people say', async () => {
    const job = await newJob();
    expect(given(await store.findJob('1'))).toBe(job.id);
    expect(given(await store.findJob(job.id))).toBe(job.id);
    expect(await store.findJob('2')).toEqual({ outcome: 'not-found', why: 'There is no job 2.' });
    expect((await store.findJob("1' or 1=1")).outcome).toBe('not-found');
  });

  it('change their head leaf by leaf; the same leaf changed elsewhere is told with both values', async () => {
    const job = await newJob();
    const set = (path: string[], is: string, was?: string) =>
      store.changeJob(job.id, { changes: [{ path, is, ...(was === undefined ? {} : { was }) }] });
    expect(await set(['customer'], 'C-1', '')).toMatchObject({ outcome: 'changed', value: { revision: 1 } });
    expect(await set(['deck', 'description'], 'direct drive', 'belt drive')).toMatchObject({
      outcome: 'changed',
      value: {
        customer: 'C-1',
        revision: 2,
        title: job.title,
        deck: { name: 'deck in the window', description: 'direct drive' },
      },
    });
    expect(await set(['customer'], 'C-2', '')).toMatchObject({
      outcome: 'conflict',
      current: { customer: 'C-1', revision: 2 },
      conflicts: [{ path: ['customer'], yours: 'C-2', theirs: 'C-1' }],
    });
    expect(await set(['customer'], 'C-1', '')).toMatchObject({ outcome: 'changed', value: { revision: 2 } });
    expect(await set(['title'], ' ', job.title)).toMatchObject({
      outcome: 'refused',
      why: 'title: a name was expected',
    });
    expect((await store.changeJob('none', { changes: [] })).outcome).toBe('not-found');
  });

  it('a deck name of 192 to 200 letters makes no job unreadable', async () => {
    for (const letters of [180, 192, 196, 200]) await newJob('d'.repeat(letters));
    const list = await store.jobs();
    expect(jobListSchema.parse(list)).toEqual(list);
    expect(list.unreadable).toEqual([]);
    expect(Math.max(...list.jobs.map((job) => job.title.length))).toBe(200);
    for (const { id } of list.jobs) expect(jobSchema.parse(given(await store.job(id))).id).toBe(id);
  });

  it('of a deck that is not there cannot be made', async () => {
    expect(await store.createJob({ deck: { id: 'none' } })).toEqual({
      outcome: 'not-found',
      why: 'There is no deck none.',
    });
    expect(await store.jobs()).toEqual({ jobs: [], unreadable: [] });
  });
});

describe('stations', () => {
  it('keep what was typed, as it was typed, and answer with the station alone', async () => {
    const { id } = await newJob();
    const changed = await store.changeStation(id, 'weigh', {
      changes: [
        { path: ['target'], is: '1.50 g' },
        { path: ['notes'], is: 'ü “x”' },
      ],
    });
    expect(changed).toMatchObject({ outcome: 'changed', value: { status: 'now', revision: 1 } });
    expect(given(await store.job(id)).stations.weigh.data).toEqual({ target: '1.50 g', notes: 'ü “x”' });
    const late = await store.changeStation(id, 'weigh', { changes: [{ path: ['target'], is: '1.8' }] });
    expect(late).toMatchObject({
      outcome: 'conflict',
      current: { status: 'now', revision: 1 },
      conflicts: [{ path: ['target'], yours: '1.8', theirs: '1.50 g' }],
    });
    expect((await store.changeStation('none', 'weigh', {})).outcome).toBe('not-found');
  });

  it('become stale by a move, and the job shows as changed', async () => {
    const job = await newJob();
    await store.changeStation(job.id, 'weigh', { status: { was: 'untouched', is: 'done' } });
    const made = given(await store.move(job.id, { move: 'slide', station: 'place', note: '0.4 mm back' }));
    expect(Object.keys(made.stations)).toEqual(['weigh']);
    expect(made.stations.weigh).toMatchObject({ status: 'stale', revision: 2 });
    expect(made.stations.weigh).not.toHaveProperty('data');
    const after = given(await store.job(job.id));
    expect(after.stations.weigh.staleBecause?.[0]).toContain('(0.4 mm back) at Place');
    expect(after.stations.tilt.status).toBe('untouched');
    expect(after.updatedAt).toBe(made.updatedAt);
    expect(after.updatedAt > job.updatedAt).toBe(true);
    expect((await store.move('none', { move: 'slide', station: 'place' })).outcome).toBe('not-found');
  });

  it('keep what was noted apart from what marks, and a step taken back leaves neither', async () => {
    const job = await newJob();
    const done = { status: { was: 'untouched', is: 'done' } } as const;
    await store.changeStation(job.id, 'height', done);
    await store.changeStation(job.id, 'run', done);
    const after = given(await store.move(job.id, { move: 'set-force', station: 'weigh', by: 0.1, step: 'first' }));
    // nothing is known of this arm, so Height is marked; 0.1 mN by itself is nothing to Run
    expect(after.stations.height).toMatchObject({
      status: 'stale',
      marks: [{ counts: true, was: 'done', step: 'first' }],
    });
    expect(after.stations.run).toMatchObject({ status: 'done', marks: [{ counts: false, effect: { size: 0.1 } }] });
    expect(after.stations.run).not.toHaveProperty('staleBecause');
    expect(given(await store.job(job.id)).stations).toMatchObject(after.stations);
    const back = given(await store.undoMove(job.id, { step: 'first' })).stations;
    for (const state of [back.height, back.run]) {
      expect(state?.status).toBe('done');
      expect(state).not.toHaveProperty('staleBecause');
      expect(state).not.toHaveProperty('marks');
    }
    expect((await store.undoMove('none', { step: 'first' })).outcome).toBe('not-found');
  });
});

describe('captures and advice', () => {
  it('keep the whole document, and give the job everything but curves', async () => {
    const { id } = await newJob();
    const { added, fresh } = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' }));
    expect(fresh).toBe(true);
    expect(added.capture).toMatchObject({ station: 'intake', file: 'side-a.wav', sha256: 'a'.repeat(64) });
    const job = given(await store.job(id));
    expect(jobSchema.parse(job)).toEqual(job);
    expect(job.captures).toEqual([{ ...added.capture, findings: tiltedSide.findings }]);
    expect(job.advice).toEqual(added.advice);
    const capture = given(await store.capture(id, added.capture.id));
    expect(capture.document).toEqual(tiltedSide);
    expect((await store.capture('other', added.capture.id)).outcome).toBe('not-found');
  });

  it('take the same document sent twice for one', async () => {
    const { id } = await newJob();
    const first = given(await store.addCapture(id, { document: tiltedSide }));
    const again = given(await store.addCapture(id, { document: tiltedSide }));
    expect(again).toEqual({ ...first, fresh: false });
    expect(given(await store.job(id)).captures).toHaveLength(1);
    const other = { ...tiltedSide, findings: tiltedSide.findings.slice(1) };
    expect(given(await store.addCapture(id, { document: other })).fresh).toBe(true);
    expect(given(await store.job(id)).captures).toHaveLength(2);
  });

  it('put each advice beside what the next capture measured', async () => {
    const { id } = await newJob();
    const before = given(await store.addCapture(id, { document: tiltedSide, station: 'intake' })).added;
    expect(before.advice).toHaveLength(1);
    expect(before.advice[0]).toMatchObject({ outcome: { did: 'open' }, checkedBy: null, checks: [] });
    const done = given(await store.setOutcome(id, before.advice[0].id, { did: 'done', note: 'turned the shell' }));
    expect(done.advice.outcome).toMatchObject({ did: 'done', note: 'turned the shell' });
    const { capture, ...job } = given(await store.addCapture(id, { document: straightSide })).added;
    const captureId = capture.id;
    expect(job.advice[0].checkedBy).toBe(captureId);
    const whole = given(await store.job(id));
    expect(job).toEqual({ advice: whole.advice, stations: {}, updatedAt: whole.updatedAt });
    expect(job.advice[0].checks.map((check) => check.came)).toEqual(['as-predicted', 'otherwise']);
    expect(whole.beforeAfter[0]).toMatchObject({ quantity: 'separation-left-to-right', before: { value: 30.3 } });
    const taken = given(await store.setOutcome(id, job.advice[0].id, { did: 'not-done' }));
    expect(taken.advice).toMatchObject({ checkedBy: null, checks: [] });
    const back = given(await store.setOutcome(id, job.advice[0].id, { did: 'open' }));
    expect(back.advice).toMatchObject({ checkedBy: captureId, outcome: { did: 'open', at: null } });
    expect((await store.setOutcome(id, 'none', { did: 'done' })).outcome).toBe('not-found');
  });

  it('stand in the order heard, not in the order stored', async () => {
    const { id } = await newJob();
    await store.addCapture(id, { document: straightSide, heardAt: '2026-03-04T12:00:00.000Z' });
    const late = given(await store.addCapture(id, { document: tiltedSide, heardAt: '2026-03-01T12:00:00.000Z' }));
    const job = given(await store.job(id));
    expect(late.added.advice).toEqual(job.advice);
    expect(job.captures.map((capture) => capture.file)).toEqual(['side-a.wav', 'side-b.wav']);
    expect(job.advice[0].checkedBy).toBe(job.captures[1].id);
  });

  it('hold thousands of findings', async () => {
    const { id } = await newJob();
    const findings = Array.from({ length: 4000 }, (_, place) => ({ ...tiltedSide.findings[0], value: place / 7 }));
    const { added } = given(await store.addCapture(id, { document: { ...tiltedSide, findings } }));
    expect(given(await store.capture(id, added.capture.id)).document.findings).toEqual(findings);
  });
});

describe('parts', () => {
  const arm = (name: string) => ({ schema: 1, kind: 'arm', name });
  const make = (id: string, name: string) => store.changePart('arm', id, { changes: leafChanges({}, arm(name)) });

  it('are made, changed leaf by leaf, listed by name and deleted', async () => {
    expect(await make('b', 'Beta')).toMatchObject({ outcome: 'changed', value: { revision: 1 } });
    await make('a', 'Zeta');
    expect((await store.parts('arm')).map((part) => part.id)).toEqual(['b', 'a']);
    expect(await make('a', 'again')).toMatchObject({
      outcome: 'conflict',
      current: { data: { name: 'Zeta' } },
      conflicts: [{ path: ['name'], yours: 'again', theirs: 'Zeta' }],
    });
    const changes = leafChanges(arm('Zeta'), { ...arm('Alpha'), effectiveMassG: 11 });
    expect(await store.changePart('arm', 'a', { changes })).toMatchObject({ value: { revision: 2 } });
    expect(await store.changePart('arm', 'a', { changes })).toMatchObject({ value: { revision: 2 } });
    const other = { changes: [{ path: ['effectiveLengthMm'], is: 230 }] };
    expect(await store.changePart('arm', 'a', other)).toMatchObject({ value: { revision: 3 } });
    expect((await store.parts()).map((part) => part.data.name)).toEqual(['Alpha', 'Beta']);
    expect(await store.parts('deck')).toEqual([]);
    expect(given(await store.part('arm', 'a')).data).toEqual({
      ...arm('Alpha'),
      effectiveMassG: 11,
      effectiveLengthMm: 230,
    });
    expect((await store.deletePart('arm', 'a')).outcome).toBe('found');
    expect((await store.deletePart('arm', 'a')).outcome).toBe('not-found');
    expect((await store.part('arm', 'a')).outcome).toBe('not-found');
    expect(await store.changePart('arm', 'a', other)).toMatchObject({ outcome: 'conflict', current: null });
  });

  it('are refused where they are none', async () => {
    const wrong = { changes: leafChanges({}, { ...arm('x'), effectiveMassG: 4000 }) };
    expect(await store.changePart('arm', 'x', wrong)).toEqual({
      outcome: 'refused',
      why: 'effectiveMassG: found 4000, expected a number from 0.5 to 300 g',
    });
  });
});

describe('the first start', () => {
  const demo = (at: string) => ({ job: demoJob({ at, madeBy: 'platterside 0' }), parts: demoParts });

  it('opens with the demo job and the parts of the practice bench, once', async () => {
    expect(await store.beginWith(demo)).toBe(true);
    const [job] = (await store.jobs()).jobs;
    expect(job).toMatchObject({ number: 41, title: 'Job 41 · bench deck 3' });
    expect(await store.last()).toEqual({ jobId: job.id, station: 'tilt' });
    expect((await store.parts()).map((part) => part.data.name).sort()).toEqual(
      demoParts.map((part) => part.name).sort(),
    );
    expect(await store.beginWith(demo)).toBe(false);
    expect((await store.jobs()).jobs).toHaveLength(1);
    expect(await store.parts()).toHaveLength(demoParts.length);
    expect((await newJob()).number).toBe(42);
  });

  it('puts nothing into a store that has a job', async () => {
    await newJob();
    expect(await store.beginWith(demo)).toBe(false);
    expect((await store.jobs()).jobs).toHaveLength(1);
  });

  it('remembers the last job and station', async () => {
    expect(await store.last()).toBeNull();
    const { id } = await newJob();
    await store.setLast({ jobId: id, station: 'hand-over' });
    expect(await store.last()).toEqual({ jobId: id, station: 'hand-over' });
    expect((await store.setLast({ jobId: 'none', station: 'run' })).outcome).toBe('not-found');
    expect(await store.last()).toEqual({ jobId: id, station: 'hand-over' });
  });
});
