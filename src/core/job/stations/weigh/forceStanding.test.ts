import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import type { WeighTyped } from '../weigh.ts';
import { standOf, travelOf } from './balance.ts';
import { armFigures, knownAs, nothingMatched } from './bench.fixture.ts';
import { forceStanding } from './forceStanding.ts';
import type { ForceSet } from './weighData.ts';

const G = 9.80665;
const facts = knownAs({
  ...armFigures,
  cartridgeMassG: 6,
  hardwareMassG: 1,
  armMomentGMm: 2320,
  trackingForceMinMn: 15,
  trackingForceMaxMn: 21,
});
const bench = { facts, match: nothingMatched };
const standing = (data: WeighTyped, reasons: readonly string[] = [], at = bench) => forceStanding(data, at, reasons);
const gauge = { reading: '1.8' };
const set: ForceSet = {
  at: '2026-03-04T09:00:00.000Z',
  by: 'gauge',
  mn: 17.5,
  uncertaintyMn: 0.3,
  targetMn: 18,
  dialMn: null,
  calibrated: true,
  left: false,
};

test('nothing weighed: the start is aimed at, from a floating arm', () => {
  const now = standing({});
  expect(now.target).toEqual({ mn: 19, from: 'start' });
  expect(now).toMatchObject({ dialMn: null, old: false, now: null, nowMn: null, findings: null, rest: null });
  expect(now.weighed.found).toBe(false);
  expect(now.travel).toEqual(travelOf(facts, { value: 0, uncertainty: null }, 19));
  expect(now.stand).toEqual(standOf(facts, nothingMatched, undefined, 19));
  expect(now.pullFor).toEqual({ mn: 19, from: 'target' });
});

test('what was weighed is what holds now, and the way that is left goes from there', () => {
  const now = standing({ gauge, dial: '2', target: '18', forceUnit: 'mN' });
  expect(now.now?.force.force.mn).toBeCloseTo(1.8 * G, 9);
  expect(now.nowMn?.value).toBeCloseTo(1.8 * G, 9);
  expect(now.nowMn?.uncertainty).toBe(now.now?.force.uncertaintyMn);
  expect(now.rest).toEqual(travelOf(facts, now.nowMn!, 18));
  expect(now.travel).toEqual(travelOf(facts, { value: 0, uncertainty: null }, 18));
  expect(now.findings?.found && now.findings.value.map(({ quantity }) => quantity)).toEqual(['tracking-force']);
  expect(now.pullFor).toEqual({ mn: now.nowMn?.value, from: 'weighed' });
  expect(standing({ dial: '18', forceUnit: 'mN' }).dialMn).toBe(18);
});

test('a reading is old once something moved that it was not typed under', () => {
  const old = (readUnder: readonly string[] | undefined, reasons: readonly string[]) =>
    standing({ gauge, readUnder }, reasons).old;
  expect(old(undefined, [])).toBe(false);
  expect(old(undefined, ['a'])).toBe(true);
  expect(old(['a'], ['a'])).toBe(false);
  expect(old(['a'], ['a', 'b'])).toBe(true);
  expect(old(['a', 'b'], ['b'])).toBe(false);
  const moved = standing({ gauge }, ['a']);
  expect(moved.weighed.found).toBe(true);
  expect(moved).toMatchObject({ now: null, nowMn: null, findings: null, rest: null });
});

test('without a force aimed at there is no way to it; what was weighed holds all the same', () => {
  const now = standing({ gauge }, [], { facts: knownAs(armFigures), match: nothingMatched });
  expect(now).toMatchObject({ target: null, findings: null, rest: null });
  expect(said(now.travel)).toMatchObject({ found: false, missing: true });
  expect(said(now.stand)).toEqual(said(now.travel));
  expect(now.pullFor?.from).toBe('weighed');
  expect(standing({}, [], { facts: {}, match: nothingMatched }).pullFor).toBeNull();
});

test('the pull is for what was weighed, else for the force as it was set while nothing speaks against it, else for the target', () => {
  const before = { ...set, mn: 16 };
  expect(standing({ sets: [before, before, set] }).pullFor).toEqual({ mn: 17.5, from: 'set' });
  expect(standing({ sets: [before, set] }, ['a']).pullFor).toEqual({ mn: 19, from: 'target' });
  expect(standing({ sets: [set], gauge }).pullFor?.from).toBe('weighed');
  expect(standing({ sets: [set], gauge }, ['a']).pullFor?.from).toBe('target');
});
