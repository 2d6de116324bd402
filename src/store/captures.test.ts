import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { SideDocument } from '../core/advise/document.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { countingOrigin, given } from './scratch.fixture.ts';
import { openStore, type Store } from './store.ts';

let store: Store;
let id: string;
beforeEach(async () => {
  store = await openStore(':memory:', countingOrigin());
  id = given(await store.createJob({ deck: { name: 'deck' } })).id;
});
afterEach(() => store.close());

const named = (side: SideDocument, file: string, sha256: string | null = null): SideDocument => ({
  ...side,
  capture: { ...side.capture, file, sha256 },
});
const day = (n: number): string => `2026-03-0${n}T09:00:00.000Z`;
const add = async (document: SideDocument, more: object = {}) =>
  given(await store.addCapture(id, { document, ...more }));

describe('a recording', () => {
  it('is kept with its curves, its own id or the one it is sent with, when it was heard and when it was stored', async () => {
    const { added } = await add(named(tiltedSide, 'a'), { id: 'own', heardAt: day(1), station: 'run', practice: true });
    const record = given(await store.capture(id, 'own'));
    expect(record).toEqual({
      id: 'own',
      heardAt: day(1),
      storedAt: added.updatedAt,
      station: 'run',
      sha256: null,
      practice: true,
      saidKind: null,
      saidEpoch: null,
      setAside: null,
      document: JSON.parse(JSON.stringify(named(tiltedSide, 'a'))),
    });
    const left = (await add(named(straightSide, 'b'))).added;
    expect(left.capture).toMatchObject({
      station: 'tilt',
      heardAt: left.updatedAt,
      storedAt: left.updatedAt,
      practice: false,
    });
    expect(left.capture).not.toHaveProperty('findings');
    expect(await store.captures(id)).toEqual([record, given(await store.capture(id, left.capture.id))]);
    expect(await store.captures('none')).toEqual([]);
  });

  it('stands in the order heard; of two heard at one time the one stored first, then by id', async () => {
    await add(named(tiltedSide, 'c'), { id: 'c', heardAt: day(2) });
    await add(named(tiltedSide, 'b'), { id: 'b', heardAt: day(2) });
    await add(named(tiltedSide, 'a'), { id: 'z', heardAt: day(1) });
    expect((await store.captures(id)).map((one) => one.id)).toEqual(['z', 'c', 'b']);
    expect(given(await store.job(id)).captures.map((one) => one.id)).toEqual(['z', 'c', 'b']);
  });

  it('sent twice is one: by its id, or by its fingerprint and every word of its document', async () => {
    const first = await add(named(tiltedSide, 'a', 'a'.repeat(64)), { id: 'own' });
    expect(await add(named(straightSide, 'b'), { id: 'own' })).toEqual({ ...first, fresh: false });
    expect(await add(named(tiltedSide, 'a', 'a'.repeat(64)))).toEqual({ ...first, fresh: false });
    expect((await add(named(tiltedSide, 'other', 'a'.repeat(64)))).fresh).toBe(true);
    // of live input nobody knows whether it is the same
    expect((await add(named(tiltedSide, 'live'))).fresh).toBe(true);
    expect((await add(named(tiltedSide, 'live'))).fresh).toBe(true);
    expect(given(await store.job(id)).captures).toHaveLength(4);
  });

  it('whose id another job has is refused with that', async () => {
    await add(tiltedSide, { id: 'own' });
    const other = given(await store.createJob({ deck: { name: 'other' } }));
    expect(await store.addCapture(other.id, { id: 'own', document: tiltedSide })).toEqual({
      outcome: 'not-found',
      why: `Job ${other.id} has no recording own; another job has.`,
    });
    const none = { outcome: 'not-found', why: `Job ${other.id} has no recording own.` };
    expect(await store.capture(other.id, 'own')).toEqual(none);
    expect(await store.changeCapture(other.id, 'own', { kind: 'pass' })).toEqual(none);
    const noJob = { outcome: 'not-found', why: 'There is no job none.' };
    expect(await store.addCapture('none', { document: tiltedSide })).toEqual(noJob);
    expect(await store.changeCapture('none', 'own', {})).toEqual(noJob);
    expect(await store.setOutcome('none', 'a', { did: 'done' })).toEqual(noJob);
  });

  it('what a person says of it is changed by itself, and the rest stays', async () => {
    await add(tiltedSide, { id: 'own' });
    const said = async (change: object) => {
      const { capture, updatedAt } = given(await store.changeCapture(id, 'own', change));
      expect(given(await store.job(id)).updatedAt).toBe(updatedAt);
      const { saidKind, saidEpoch, setAside } = capture;
      return [saidKind, saidEpoch, setAside === null ? null : [setAside.why, setAside.at === updatedAt]];
    };
    expect(await said({ kind: 'pass' })).toEqual(['pass', null, null]);
    expect(await said({ epoch: 'e' })).toEqual(['pass', 'e', null]);
    expect(await said({ setAside: { why: 'w' } })).toEqual(['pass', 'e', ['w', true]]);
    expect(await said({ kind: null })).toEqual([null, 'e', ['w', false]]);
    expect(await said({ epoch: null })).toEqual([null, null, ['w', false]]);
    expect(await said({})).toEqual([null, null, ['w', false]]);
    expect(await said({ setAside: null })).toEqual([null, null, null]);
  });

  it('with more figures than one statement takes keeps each in its place', async () => {
    const findings = Array.from({ length: 201 }, (_, n) => ({ ...tiltedSide.findings[0], value: n }));
    await add({ ...tiltedSide, findings }, { id: 'own' });
    expect(given(await store.capture(id, 'own')).document.findings.map(({ value }) => value)).toEqual(
      findings.map(({ value }) => value),
    );
  });
});

describe('advice', () => {
  it('is told with the recording that gives it and with the one that shows what came of it, and no other', async () => {
    const first = (await add(named(tiltedSide, 'a'), { heardAt: day(1) })).added;
    expect(first.advice.map(({ captureId, checkedBy }) => [captureId, checkedBy])).toEqual([[first.capture.id, null]]);
    const second = (await add(named(straightSide, 'b'), { heardAt: day(2) })).added;
    expect(second.advice.map(({ captureId, checkedBy }) => [captureId, checkedBy])).toEqual([
      [first.capture.id, second.capture.id],
    ]);
    expect(second.advice[0].checks).toHaveLength(2);
    // one heard later changes nothing of it
    const third = (await add(named({ ...straightSide, advice: [] }, 'c'), { heardAt: day(3) })).added;
    expect(third.advice).toEqual([]);
    // the recording that showed it is set aside: the next one shows it
    const aside = given(await store.changeCapture(id, second.capture.id, { setAside: { why: 'w' } }));
    expect(aside.advice.map(({ captureId, checkedBy }) => [captureId, checkedBy])).toEqual([
      [first.capture.id, third.capture.id],
    ]);
    expect(given(await store.job(id)).advice[0].checks).toHaveLength(2);
  });

  it('has an outcome with its note and time; open again it has neither time nor, unless said, a note', async () => {
    const { added } = await add(tiltedSide);
    const [{ id: advice }] = added.advice;
    const set = async (change: Parameters<Store['setOutcome']>[2]) => given(await store.setOutcome(id, advice, change));
    const now = await set({ did: 'done' });
    expect(now.advice.outcome).toEqual({ did: 'done', note: '', at: now.updatedAt });
    expect(given(await store.job(id)).updatedAt).toBe(now.updatedAt);
    const told = await set({ did: 'not-done', note: 'n', at: day(5) });
    expect(told.advice.outcome).toEqual({ did: 'not-done', note: 'n', at: day(5) });
    expect((await set({ did: 'open', at: day(5) })).advice.outcome).toEqual({ did: 'open', note: '', at: null });
    expect(await store.setOutcome(id, 'none', { did: 'done' })).toEqual({
      outcome: 'not-found',
      why: `Job ${id} has no advice none.`,
    });
  });
});
