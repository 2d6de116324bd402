import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { stationNames } from '../core/job/station.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

let store: Store;
let id: string;
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
  id = given(await store.createJob({ deck: { name: 'deck' } })).id;
});
afterEach(() => store.close());

const done = { status: { was: 'untouched', is: 'done' } } as const;
const state = async (name: (typeof stationNames)[number]) => given(await store.job(id)).stations[name];

describe('a job is closed', () => {
  const reasonWanted = (titles: string) => ({
    outcome: 'refused',
    why: `hand-over.closedOver: the reason why the job is closed with stations open was expected; not done: ${titles}`,
  });

  it('over stations that are open only with a reason; those that are done are not named', async () => {
    await store.changeStation(id, 'tilt', done);
    await store.changeStation(id, 'weigh', done);
    expect(await store.changeStation(id, 'hand-over', done)).toEqual(
      reasonWanted('Intake, Match, Fit, Place, Height, Run'),
    );
    expect((await state('hand-over')).status).toBe('untouched');
    const reasoned = { ...done, changes: [{ path: ['closedOver'], is: 'fetched early' }] };
    expect(await store.changeStation(id, 'hand-over', reasoned)).toMatchObject({
      outcome: 'changed',
      value: { status: 'done' },
    });
    // once closed, what is typed there needs no reason any more
    const later = await store.changeStation(id, 'hand-over', {
      changes: [{ path: ['closedOver'], was: 'fetched early', is: '' }],
    });
    expect(later.outcome).toBe('changed');
  });

  it('and stations other than Hand over are done without a reason', async () => {
    for (const name of stationNames) expect((await store.changeStation(id, name, done)).outcome, name).toBe('changed');
  });

  it('and a recording that counts opens it again, one revision on, named by its file', async () => {
    for (const name of stationNames) await store.changeStation(id, name, done);
    const { revision } = await state('hand-over');
    const { added } = given(await store.addCapture(id, { document: straightSide }));
    expect(added.stations).toEqual({
      'hand-over': {
        status: 'stale',
        staleBecause: ['A recording was read after the job was closed: side-b.wav.'],
        readSince: ['side-b.wav'],
        revision: revision + 1,
        updatedAt: added.updatedAt,
      },
    });
    // open already: it is not opened twice
    const again = { ...tiltedSide, advice: [] };
    expect(given(await store.addCapture(id, { document: again })).added.stations).toEqual({});
  });
});

describe('a move at its own station', () => {
  const STEP = '2026-03-04T12:00:00.000Z';
  const turn = { move: 'turn-shell', station: 'tilt', by: -0.9, step: STEP } as const;
  const advice = async () => given(await store.job(id)).advice;

  beforeEach(async () => {
    await store.addCapture(id, { document: tiltedSide, station: 'intake' });
  });

  it('answers the advice of what is fitted now, at its step, and taken back opens it again', async () => {
    const made = given(await store.move(id, turn));
    expect(made.advice.map(({ outcome }) => outcome)).toEqual([{ did: 'done', note: 'headshell turned', at: STEP }]);
    expect(await advice()).toEqual(made.advice);
    const back = given(await store.undoMove(id, { step: STEP }));
    expect(back.advice.map(({ outcome }) => outcome)).toEqual([{ did: 'open', note: '', at: null }]);
    expect(await advice()).toEqual(back.advice);
    expect(given(await store.undoMove(id, { step: STEP })).advice).toEqual([]);
  });

  it('sent twice answers once, and marks once', async () => {
    await store.changeStation(id, 'run', done);
    const first = given(await store.move(id, turn));
    const again = given(await store.move(id, turn));
    expect(again.stations).toEqual(first.stations);
    expect(again.advice).toEqual([]);
    expect((await advice())[0].outcome).toEqual({ did: 'done', note: 'headshell turned', at: STEP });
    // another move of that step is another one
    const other = given(await store.move(id, { move: 'shim', station: 'tilt', step: STEP }));
    expect(other.stations.run?.marks).toHaveLength(2);
  });

  it('that answers another advice at the same time as one that was answered answers that too', async () => {
    given(await store.move(id, turn));
    const later = { ...tiltedSide, capture: { ...tiltedSide.capture, sha256: 'e'.repeat(64), file: 'later.wav' } };
    await store.addCapture(id, { document: later });
    const STEP2 = '2026-03-04T13:00:00.000Z';
    given(await store.move(id, { ...turn, step: STEP2 }));
    expect((await advice()).map(({ outcome }) => outcome.at)).toEqual([STEP, STEP2]);
    given(await store.undoMove(id, { step: STEP }));
    expect((await advice()).map(({ outcome }) => outcome.did)).toEqual(['open', 'done']);
  });

  it.each([
    ['whose step is no time', { ...turn, step: 's-1' }],
    ['without a step', { move: turn.move, station: turn.station, by: turn.by }],
    ['the other way', { ...turn, by: 0.9 }],
  ] as const)('%s answers nothing', async (_, move) => {
    const made = given(await store.move(id, move));
    expect(made.advice).toEqual([]);
    expect((await advice())[0].outcome.did).toBe('open');
  });

  it('answers nothing of a recording set aside, or of what was fitted before', async () => {
    const [{ id: capture }] = given(await store.job(id)).captures;
    given(await store.changeCapture(id, capture, { setAside: { why: 'wrong deck' } }));
    expect(given(await store.move(id, turn)).advice).toEqual([]);
    given(await store.changeCapture(id, capture, { setAside: null }));
    given(await store.undoMove(id, { step: STEP }));
    given(await store.addFitting(id, { kind: 'cartridge', name: 'B' }));
    expect(given(await store.move(id, turn)).advice).toEqual([]);
  });
});

describe('the head of a job', () => {
  const set = (path: string[], was: string, is: string) => store.changeJob(id, { changes: [{ path, was, is }] });

  it('is told whole after each change, and what was changed of the deck holds for its other jobs', async () => {
    const { deck } = given(await store.job(id));
    const other = given(await store.createJob({ deck: { id: deck.id } }));
    const changed = await set(['deck', 'name'], 'deck', 'Other');
    const now = given(await store.job(id));
    expect(changed).toEqual({
      outcome: 'changed',
      value: {
        recordFile: '',
        title: 'Job 1 · deck',
        customer: '',
        notes: '',
        revision: 1,
        updatedAt: now.updatedAt,
        deck: { id: deck.id, name: 'Other', description: '' },
      },
    });
    expect(given(await store.job(other.id)).deck.name).toBe('Other');
    expect((await store.decks({ named: 'OTHER' })).decks).toHaveLength(1);
    expect((await store.decks({ named: 'deck' })).decks).toHaveLength(0);
    expect((await store.jobs({ words: 'oth' })).jobs).toHaveLength(2);
  });

  it('that is changed to what it is stays of its revision and time', async () => {
    const before = given(await store.job(id));
    expect(await set(['notes'], '', '')).toMatchObject({
      outcome: 'changed',
      value: { revision: 0, updatedAt: before.updatedAt },
    });
    expect(given(await store.job(id))).toEqual(before);
  });
});

it('a title that is empty is made, one that is given stays; what is left out is empty', async () => {
  const made = given(await store.createJob({ deck: { name: 'x' }, title: '' }));
  expect(made).toMatchObject({
    number: 2,
    title: 'Job 2 · x',
    customer: '',
    notes: '',
    recordFile: '',
    practice: false,
    setAside: null,
  });
  expect(made.deck.description).toBe('');
  expect(made.createdAt).toBe(made.updatedAt);
  const told = given(
    await store.createJob({ deck: { name: 'x', description: 'y' }, title: 't', customer: 'c', notes: 'n' }),
  );
  expect(told).toMatchObject({ title: 't', customer: 'c', notes: 'n', deck: { name: 'x', description: 'y' } });
});
