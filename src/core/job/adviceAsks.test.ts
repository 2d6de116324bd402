import { expect, it } from 'vitest';
import { isMoveAsked } from './adviceAsks.ts';
import type { AdviceEntry, Job } from './api.ts';
import { recordingFacts } from './recording.fixture.ts';

const capture = (id: string, quantity: string, more: object = {}) => ({
  ...recordingFacts,
  id,
  heardAt: `2027-03-01T0${id}:00:00.000Z`,
  findings: [{ quantity }],
  ...more,
});
const advice = (captureId: string, action: string, did: 'open' | 'done' | 'not-done' = 'open'): AdviceEntry =>
  ({ id: `${captureId} ${action}`, captureId, outcome: { did, note: '', at: null }, advice: { action } }) as never;
const job = (captures: readonly object[], given: readonly AdviceEntry[]): Job =>
  ({ practice: false, fittings: [], captures, advice: given }) as never;

it('a move that the newest recording advises is asked for at its own station until it is answered', () => {
  const heard = [capture('1', 'overhang-heard')];
  const asks = (given: readonly AdviceEntry[]) =>
    (['place', 'height', 'tilt', 'fit'] as const).filter((station) => isMoveAsked(job(heard, given), station));
  expect(asks([advice('1', 'slide')])).toEqual(['place']);
  expect(asks([advice('1', 'slide', 'done')])).toEqual([]);
  expect(asks([advice('1', 'slide', 'not-done'), advice('1', 'twist')])).toEqual(['place']);
  expect(asks([advice('1', 'set-arm-height'), advice('1', 'tilt')])).toEqual(['height', 'tilt']);
  expect(asks([advice('1', 'swap-channels')])).toEqual(['fit']);
  expect(asks([advice('1', 'leave-tilt'), advice('1', 'leave-overhang')])).toEqual([]);
});

it('a later recording that tells the figure and advises nothing of it ends the asking; one that does not tell it, or does not count, leaves it', () => {
  const after = (later: object) =>
    isMoveAsked(job([capture('1', 'overhang-heard'), later], [advice('1', 'slide')]), 'place');
  expect(after(capture('2', 'overhang-heard'))).toBe(false);
  expect(after(capture('2', 'speed-error'))).toBe(true);
  expect(after(capture('2', 'overhang-heard', { unfit: 'noise' }))).toBe(true);
});

it('only the newest recording’s advice asks, and what another station is asked says nothing here', () => {
  const heard = [capture('1', 'overhang-heard'), capture('2', 'azimuth-error')];
  const asks = (given: readonly AdviceEntry[], captures = heard) =>
    (['intake', 'place', 'height', 'tilt', 'run'] as const).filter((name) => isMoveAsked(job(captures, given), name));
  expect(asks([advice('1', 'slide'), advice('2', 'slide', 'done')])).toEqual([]);
  expect(asks([advice('1', 'slide'), advice('2', 'trial-tilt')])).toEqual(['place', 'tilt']);
  expect(asks([advice('1', 'tilt')])).toEqual([]);
  expect(asks([advice('1', 'set-arm-height')], [heard[0], capture('2', 'vertical-tracking-error')])).toEqual([]);
  expect(asks([advice('1', 'speed')])).toEqual(['run']);
  expect(asks([advice('1', 'toString')])).toEqual([]);
  expect(asks([])).toEqual([]);
  // of a recording that the job does not hold
  expect(asks([advice('9', 'slide')])).toEqual([]);
  expect(asks([advice('1', 'slide')], [])).toEqual([]);
});
