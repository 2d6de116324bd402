import { expect, test } from 'vitest';
import { forceAtRise } from '../../../mechanics/forceAndHeight.ts';
import { said } from '../../../words/said.fixture.ts';
import type { WeighTyped } from '../weigh.ts';
import { armFigures, knownAs, swinging } from './bench.fixture.ts';
import { dialOf, effectKind, findingsOf, forceOverHeight, heightOf, swingingArm, weighedOf } from './gauge.ts';

const G = 9.80665;
const masses = [{ mass: '5', within: '0.02', reading: '5.05' }];

function weighed(data: WeighTyped, facts = knownAs({})) {
  const answer = weighedOf(data, facts);
  if (!answer.found) throw new Error(answer.why.code);
  return answer.value;
}
const codes = (data: WeighTyped, facts?: Parameters<typeof weighed>[1]) =>
  weighed(data, facts).force.notes.map(({ code }) => code);
const swung = (forceMn: number, riseMm: number): number =>
  1e3 *
  forceAtRise(
    { force: forceMn * 1e-3, effectiveLength: 240, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 4 },
    riseMm,
  );

test('at record height the reading is the force; a gauge that nobody checked is trusted to 2 % and a digit', () => {
  const { force, calibrated } = weighed({ gauge: { reading: '1,8' } });
  expect(force.force.mn).toBeCloseTo(1.8 * G, 9);
  expect(force.uncertaintyMn).toBeCloseTo(2 * G * Math.hypot(0.018, 0.01 / Math.sqrt(12)), 9);
  expect(force.correctionMn).toBe(0);
  expect(calibrated).toBe(false);
  expect(codes({ gauge: { reading: '1.8', height: '0' } })).toEqual(['gauge-not-held']);
  // how the force goes with height does not count here
  for (const effect of ['arm', 'two-readings'] as const) {
    expect(codes({ gauge: { reading: '1.8', effect } })).toEqual(['gauge-not-held']);
  }
  const coarse = weighed({ gauge: { reading: '1.8', digit: '0.1' } }).force.uncertaintyMn;
  expect(coarse).toBeCloseTo(2 * G * Math.hypot(0.018, 0.1 / Math.sqrt(12)), 9);
});

test('known masses correct it', () => {
  const { force, calibrated } = weighed({ gauge: { reading: '1.818' }, masses });
  expect(force.force.mn).toBeCloseTo(1.8 * G, 9);
  expect(calibrated).toBe(true);
  expect(codes({ gauge: { reading: '1.818' }, masses })).toEqual(['gauge-corrected']);
});

test('above the record the arm’s own balance tells what to take off, and below it what to add', () => {
  for (const height of [8, -5]) {
    const gauge = { reading: '2', height: String(height) };
    const { force } = weighed({ gauge }, swinging);
    // the force there, lifted by this height, is what the gauge showed
    expect(swung(force.force.mn, height)).toBeCloseTo(2 * G, 6);
    expect(Math.sign(force.correctionMn)).toBe(Math.sign(height));
    expect(codes({ gauge }, swinging)).toEqual(['gauge-not-held', 'height-effect-arm']);
    expect(codes({ gauge: { ...gauge, effect: 'arm' } }, swinging)).toEqual(['gauge-not-held', 'height-effect-arm']);
    expect(codes({ gauge: { ...gauge, effect: 'unknown' } }, swinging)[1]).toBe('height-effect-unknown');
  }
  const corrected = weighed({ gauge: { reading: '2.02', height: '8' }, masses }, swinging).force;
  expect(swung(corrected.force.mn, 8)).toBeCloseTo(2 * G, 6);
});

test('of an arm of which nothing is known nothing is taken off, and 1 % a mm is left open', () => {
  const { force } = weighed({ gauge: { reading: '2', height: '8' } });
  expect(force.force.mn).toBeCloseTo(2 * G, 9);
  expect(force.uncertaintyMn).toBeCloseTo(G * Math.hypot(2 * Math.hypot(0.02, 0.01 / Math.sqrt(12)), 0.16), 9);
});

test('two readings give the slope, whichever of them stands higher; both go through the calibration', () => {
  const at = (height: string, reading: string, secondHeight: string, secondReading: string): WeighTyped => ({
    gauge: { effect: 'two-readings', height, reading, secondHeight, secondReading },
  });
  // 0.01 g for each mm
  const up = weighed(at('8', '2.00', '18', '2.10')).force;
  expect(up.force.mn).toBeCloseTo(1.92 * G, 9);
  expect(up.correctionMn).toBeCloseTo(0.08 * G, 9);
  expect(weighed(at('18', '2.10', '8', '2.00')).force.force.mn).toBeCloseTo(1.92 * G, 9);
  expect(weighed(at('-8', '2.00', '2', '2.10')).force.force.mn).toBeCloseTo(2.08 * G, 9);
  expect(codes(at('8', '2.00', '18', '2.10'))).toEqual(['gauge-not-held', 'height-effect-read']);
  const held = weighed({ ...at('8', '2.02', '18', '2.121'), masses }).force;
  expect(held.force.mn).toBeCloseTo(1.92 * G, 6);
});

test('what keeps a reading from being used is said, with whether it is only not there yet', () => {
  const why = (data: WeighTyped, facts = knownAs({})) => said(weighedOf(data, facts));
  const none = (missing: boolean, text: unknown) => ({ found: false, missing, why: text });
  expect(why({})).toEqual(none(true, 'nothing was weighed yet'));
  expect(why({ gauge: { reading: '' } })).toEqual(none(true, 'nothing was weighed yet'));
  expect(why({ gauge: { reading: '99' } })).toEqual(none(false, 'the reading cannot be used as it is typed'));
  expect(why({ gauge: { reading: '2', height: 'high' } })).toEqual(
    none(false, 'the height cannot be used as it is typed'),
  );
  expect(why({ gauge: { reading: '2', digit: 'fine' } })).toEqual(
    none(false, 'the last digit cannot be used as it is typed'),
  );
  const half = [{ mass: '5', within: '', reading: '5' }];
  const odd = [{ mass: 'x', within: '', reading: '5' }];
  expect(why({ gauge: { reading: '2' }, masses: half })).toEqual(none(true, expect.stringContaining('Row 1 is not')));
  expect(why({ gauge: { reading: '2' }, masses: odd })).toEqual(none(false, expect.stringContaining('Row 1: Found')));
  expect(why({ gauge: { reading: '2', height: '8', effect: 'arm' } })).toEqual(
    none(true, expect.stringContaining('the effective length, the whole moving mass')),
  );
});

test('a second reading is asked for where it counts, and refused where it cannot be', () => {
  const why = (gauge: WeighTyped['gauge']) =>
    said(weighedOf({ gauge: { reading: '2', height: '8', effect: 'two-readings', ...gauge } }, swinging));
  const none = (missing: boolean, text: unknown) => ({ found: false, missing, why: text });
  const lacking = none(true, 'the second reading, at another height, is not there yet');
  const wrong = none(false, 'the second reading cannot be used as it is typed');
  expect(why({})).toEqual(lacking);
  expect(why({ secondReading: '2.1' })).toEqual(lacking);
  expect(why({ secondHeight: '18' })).toEqual(lacking);
  expect(why({ secondReading: 'x', secondHeight: '18' })).toEqual(wrong);
  expect(why({ secondReading: '2.1', secondHeight: 'x' })).toEqual(wrong);
  expect(why({ secondReading: '2.1', secondHeight: '8' })).toMatchObject({ found: false, missing: false });
});

test('empty is at record height; what was typed and cannot be used is none', () => {
  expect([heightOf({}), heightOf({ height: '' }), heightOf({ height: '−4' }), heightOf({ height: 'x' })]).toEqual([
    0,
    0,
    -4,
    null,
  ]);
});

test('the arm swings by its own figures, in kg and N; without one of them it is named', () => {
  expect(swingingArm(swinging, 18)).toEqual({
    found: true,
    value: {
      force: expect.closeTo(0.018, 12),
      effectiveLength: 240,
      pivotAboveTip: 18,
      movingMass: 0.215,
      centreBelowPivot: 4,
    },
  });
  expect(said(swingingArm(knownAs({ ...armFigures, movingMassG: undefined }), 18))).toMatchObject({ found: false });
  expect(effectKind(swinging, {})).toBe('arm');
  expect(effectKind({}, {})).toBe('unknown');
  expect(effectKind(swinging, { effect: 'two-readings' })).toBe('two-readings');
});

test('the dial in the unit of bare numbers, grams where none was chosen; none where it cannot be read', () => {
  expect(dialOf({ dial: '1.8' })).toBeCloseTo(1.8 * G, 9);
  expect(dialOf({ dial: '18', forceUnit: 'mN' })).toBe(18);
  expect([dialOf({}), dialOf({ dial: 'x' })]).toEqual([null, null]);
});

test('the gauge is held against target, dial and the maker’s range', () => {
  const found = (data: WeighTyped, facts = knownAs({})) => {
    const answer = findingsOf(data, facts, weighed({ gauge: { reading: '1.8' } }), { mn: 18, from: 'typed' });
    if (!answer.found) throw new Error(answer.why.code);
    return answer.value.map(({ quantity, value, verdict }) => [quantity, Number(value).toFixed(3), verdict]);
  };
  const force = ['tracking-force', '17.652'];
  expect(found({})).toEqual([[...force, 'good']]);
  expect(found({ dial: '2' })).toEqual([
    [...force, 'good'],
    ['dial-less-gauge', '1.961', 'adjust'],
  ]);
  expect(found({}, knownAs({ trackingForceMinMn: 19, trackingForceMaxMn: 25 }))).toEqual([[...force, 'bad']]);
  expect(found({}, knownAs({ trackingForceMinMn: 10, trackingForceMaxMn: 17 }))).toEqual([[...force, 'bad']]);
  expect(findingsOf({}, {}, weighed({ gauge: { reading: '1.8' } }), { mn: 0, from: 'typed' }).found).toBe(false);
});

test('force over height: forty steps from end to end, this force at the record', () => {
  const line = forceOverHeight(swinging, 18, -10, 30);
  if (!line.found) throw new Error(line.why.code);
  const { x, y } = line.value;
  expect(x).toEqual(Array.from({ length: 41 }, (_, i) => i - 10));
  expect(y[10]).toBeCloseTo(18, 9);
  expect(y).toEqual(x.map((rise) => expect.closeTo(swung(18, rise), 9)));
  expect(forceOverHeight({}, 18, -10, 30)).toMatchObject({ found: false, missing: true });
  expect(forceOverHeight(swinging, 18, -500, 30)).toMatchObject({ found: false, missing: false });
});
