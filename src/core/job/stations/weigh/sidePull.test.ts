import { expect, test } from 'vitest';
import { skatingOverSide } from '../../../advise/skatingSide.ts';
import { said } from '../../../words/said.fixture.ts';
import { say } from '../../../words/statement.ts';
import type { Part } from '../../parts.ts';
import { knownAs, matched, nothingMatched, swinging } from './bench.fixture.ts';
import { partDevice, pullOverSide, startPull, usualPull } from './sidePull.ts';
import type { SkatingTyped } from './weighData.ts';

const noDevice = { device: null, leverMm: null, weightG: null };

function pull(typed: SkatingTyped = {}, match = nothingMatched, forceMn = 18) {
  const answer = pullOverSide(swinging, match, typed, forceMn);
  if (!answer.found) throw new Error(say(answer.why));
  return answer.value;
}
const sideFor = (friction: number, inner = 60.325, outer = 146.05) => {
  const asked = {
    trackingForceMn: 18,
    friction,
    effectiveLengthMm: 240,
    spindleToPivotMm: 223,
    grooveInnerMm: inner,
    grooveOuterMm: outer,
  };
  const answer = skatingOverSide(asked);
  if (!answer.found) throw new Error(say(answer.why));
  return answer.side;
};
const none = (missing: boolean, why: unknown) => ({ found: false, missing, why });

test('friction and grooves as usual, with a tenth of friction less and more beside it', () => {
  const { question, side, less, more, frictionGiven, document } = pull();
  expect(question).toEqual({
    trackingForceMn: 18,
    friction: 0.3,
    effectiveLengthMm: 240,
    spindleToPivotMm: 223,
    grooveInnerMm: 60.325,
    grooveOuterMm: 146.05,
  });
  expect(side).toEqual(sideFor(0.3));
  expect(less.moment.mean).toBeCloseTo(sideFor(0.2).moment.mean, 9);
  expect(more.moment.mean).toBeCloseTo(sideFor(0.4).moment.mean, 9);
  expect(frictionGiven).toBe(false);
  expect(document.findings.map(({ quantity, value, notes }) => [quantity, value, notes?.[0]?.code])).toEqual([
    ['skating-force-inner', side.inner.forceMn, 'skating-friction-assumed'],
    ['skating-force-outer', side.outer.forceMn, 'skating-friction-assumed'],
  ]);
});

test('what is typed goes before what Match has, and that before the usual', () => {
  const match = matched({ typed: { friction: '0.25', grooveInnerMm: '58', grooveOuterMm: '144' } });
  expect(usualPull(nothingMatched)).toEqual({
    friction: { value: 0.3, from: 'usual' },
    inner: { value: 60.325, from: 'usual' },
    outer: { value: 146.05, from: 'usual' },
  });
  expect(usualPull(match)).toEqual({
    friction: { value: 0.25, from: 'from Match' },
    inner: { value: 58, from: 'from Match' },
    outer: { value: 144, from: 'from Match' },
  });
  expect(pull({}, match).question).toMatchObject({ friction: 0.25, grooveInnerMm: 58, grooveOuterMm: 144 });
  const typed = pull({ friction: '0.28', inner: '62', outer: '140' }, match);
  expect(typed.question).toMatchObject({ friction: 0.28, grooveInnerMm: 62, grooveOuterMm: 140 });
  expect(typed.side).toEqual(sideFor(0.28, 62, 140));
  expect(typed.document.curves[0].x[0]).toBe(62);
  expect(typed.document.curves[0].x.at(-1)).toBe(140);
});

test('friction counts as given where it was typed here or at Match', () => {
  const given = (typed: SkatingTyped, match = nothingMatched) => {
    const { frictionGiven, document } = pull(typed, match);
    return [frictionGiven, document.findings[0].notes?.[0]?.code];
  };
  expect(given({ friction: ' ' })).toEqual([false, 'skating-friction-assumed']);
  expect(given({ friction: '0.3' })).toEqual([true, 'skating-friction-given']);
  expect(given({}, matched({ typed: { friction: '0.25' } }))).toEqual([true, 'skating-friction-given']);
});

test('friction never goes under nothing', () => {
  const { less, more } = pull({ friction: '0.05' });
  expect(less.moment.most).toBe(0);
  expect(more.moment.mean).toBeCloseTo(sideFor(0.15).moment.mean, 9);
});

test('what cannot be used is named; what is not known is asked for; what cannot be played is refused', () => {
  const why = (typed: SkatingTyped, facts = swinging) => said(pullOverSide(facts, nothingMatched, typed, 18));
  expect(why({ friction: 'x' })).toEqual(none(false, 'the friction cannot be used as it is typed'));
  expect(why({ inner: 'x' })).toEqual(none(false, 'the innermost groove cannot be used as it is typed'));
  expect(why({ outer: 'x' })).toEqual(none(false, 'the outermost groove cannot be used as it is typed'));
  expect(why({}, {})).toEqual(
    none(true, expect.stringContaining('the effective length, the distance from spindle to pivot')),
  );
  expect(why({}, knownAs({ effectiveLengthMm: 240, spindleToPivotMm: 400 }))).toMatchObject({ missing: false });
  expect(why({ inner: '90', outer: '70' })).toMatchObject({ found: false, missing: false });
});

test('the arm’s part tells its device, its lever and its weight', () => {
  const of = (antiSkating: string | undefined, more: object = {}) => {
    const part = { schema: 1, kind: 'arm', name: 'bench arm', ...(antiSkating && { antiSkating }), ...more } as Part;
    return partDevice(matched({ parts: { arm: { id: null, revision: 0, part } } } as never));
  };
  expect(partDevice(nothingMatched)).toEqual(noDevice);
  expect(of(undefined)).toEqual(noDevice);
  expect(of('thread-and-weight', { antiSkatingLeverMm: 12, antiSkatingWeightG: 4 })).toEqual({
    device: 'thread',
    leverMm: 12,
    weightG: 4,
  });
  expect(['none', 'lever', 'spring-dial', 'magnetic-dial'].map((kind) => of(kind).device)).toEqual([
    'none',
    'notched-lever',
    'dial',
    'dial',
  ]);
});

test('the device that was chosen goes before the part’s, and without either a thread is meant', () => {
  const device = (typed: SkatingTyped, part: Parameters<typeof startPull>[2] = noDevice) => {
    const start = startPull(pull(), typed, part);
    return start.found ? start.value.device : said(start);
  };
  const dial = { device: 'dial', leverMm: 12, weightG: 4 } as const;
  expect(device({ lever: '10' })).toEqual({ kind: 'thread', leverMm: 10 });
  expect(device({}, { ...noDevice, leverMm: 12 })).toEqual({ kind: 'thread', leverMm: 12 });
  expect(device({ lever: '10' }, { ...noDevice, leverMm: 12 })).toEqual({ kind: 'thread', leverMm: 10 });
  expect(device({}, dial)).toEqual({ kind: 'dial', dialFriction: 0.3 });
  expect(device({ dialFriction: '0.25' }, dial)).toEqual({ kind: 'dial', dialFriction: 0.25 });
  expect(device({ device: 'thread' }, dial)).toEqual({ kind: 'thread', leverMm: 12 });
  const notches = { device: 'notched-lever', notches: '8 10 12,5' } as const;
  expect(device(notches, dial)).toEqual({ kind: 'notched-lever', weightG: 4, notchesMm: [8, 10, 12.5] });
  expect(device({ ...notches, weight: '3' }, dial)).toMatchObject({ weightG: 3 });
  expect(device({ device: 'none' }, dial)).toEqual(none(true, 'this arm has no anti-skating'));
});

test('notches with spaces, semicolons or a comma and a space between them', () => {
  const notches = (text: string | undefined) => {
    const start = startPull(pull(), { device: 'notched-lever', weight: '4', notches: text }, noDevice);
    if (!start.found) return said(start);
    return start.value.device.kind === 'notched-lever' ? start.value.device.notchesMm : null;
  };
  for (const text of ['8 10 12.5', ' 8  10 12,5 ', '8;10;12,5', '8; 10 ;12.5', '8, 10, 12.5', '8\t10\n12.5']) {
    expect(notches(text), text).toEqual([8, 10, 12.5]);
  }
  expect(notches('9')).toEqual([9]);
  for (const text of [undefined, '', ' ; ']) expect(notches(text)).toMatchObject({ found: false, missing: true });
  expect(notches('8 ten 12')).toMatchObject({ missing: false, why: expect.stringContaining('ten') });
  expect(notches('8 9000')).toMatchObject({ missing: false, why: expect.stringContaining('9000') });
});

test('what the device lacks is asked for, and what cannot be used of it is named', () => {
  const why = (typed: SkatingTyped) => said(startPull(pull(), typed, noDevice));
  const lever = 'the lever that the thread pulls at';
  expect(why({})).toEqual(none(true, `${lever} is not known`));
  expect(why({ lever: 'x' })).toEqual(none(false, `${lever} cannot be used as it is typed`));
  const notched = { device: 'notched-lever', notches: '8' } as const;
  expect(why(notched)).toEqual(none(true, 'the lever’s weight is not known'));
  expect(why({ ...notched, weight: 'x' })).toEqual(none(false, 'the lever’s weight cannot be used as it is typed'));
  expect(why({ device: 'dial', dialFriction: 'x' })).toEqual(
    none(false, 'the friction that the dial was made for cannot be used as it is typed'),
  );
});

test('the start takes up the mean pull over the side: a weight by moments, a dial by friction', () => {
  const start = (typed: SkatingTyped) => {
    const answer = startPull(pull(), typed, noDevice);
    if (!answer.found) throw new Error(say(answer.why));
    return answer.value.setting;
  };
  const thread = start({ lever: '12' });
  expect(thread.unit).toBe('g');
  expect(thread.setting).toBeCloseTo(sideFor(0.3).moment.mean / 12 / 9.80665, 9);
  expect(start({ device: 'dial', dialFriction: '0.25' }).setting).toBeCloseTo((18 * 0.3) / 0.25, 9);
});

test('without a pull inwards there is nothing to start from', () => {
  expect(startPull(pull({ friction: '0' }), { lever: '12' }, noDevice)).toMatchObject({
    found: false,
    missing: false,
    why: { code: 'pull-not-inward' },
  });
  expect(startPull(pull(), { device: 'dial', dialFriction: '0.01' }, noDevice)).toMatchObject({
    found: false,
    missing: false,
  });
});
