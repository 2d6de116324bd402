import { describe, expect, test } from 'vitest';
import { matchSkating } from './matchSkating.ts';
import { type AntiSkatingDevice, antiSkatingStart, type SkatingQuestion, skatingOverSide } from './skatingSide.ts';
import { told } from './told.fixture.ts';

const [L, D] = [239.3, 222];
const G = 9.80665;
const question: SkatingQuestion = {
  trackingForceMn: 18,
  friction: 0.3,
  effectiveLengthMm: L,
  spindleToPivotMm: D,
  grooveInnerMm: 60,
  grooveOuterMm: 146,
};
/** Between the arm's line and the groove, by the law of cosines. */
const theta = (r: number) => Math.asin((r * r + L * L - D * D) / (2 * r * L));
const pointAt = (r: number) => ({
  radiusMm: expect.closeTo(r, 9),
  thetaDeg: expect.closeTo((theta(r) * 180) / Math.PI, 9),
  forceMn: expect.closeTo(5.4 * Math.tan(theta(r)), 9),
  acrossArmMn: expect.closeTo(5.4 * Math.sin(theta(r)), 9),
  momentMnMm: expect.closeTo(5.4 * Math.sin(theta(r)) * L, 9),
});
const moment = (r: number) => 5.4 * Math.sin(theta(r)) * L;
const sideOf = (more: Partial<SkatingQuestion> = {}, count?: number) => {
  const answer = skatingOverSide({ ...question, ...more }, count);
  if (!answer.found) throw new Error(answer.why.code);
  return answer.side;
};

describe('over a side', () => {
  test('whole: five points evenly over the radii, and the moment over them', () => {
    const radii = [60, 81.5, 103, 124.5, 146];
    const moments = radii.map(moment);
    expect(sideOf({}, 5)).toEqual({
      inner: pointAt(60),
      outer: pointAt(146),
      points: radii.map(pointAt),
      moment: {
        least: expect.closeTo(Math.min(...moments), 9),
        mean: expect.closeTo(moments.reduce((a, b) => a + b) / 5, 9),
        most: expect.closeTo(Math.max(...moments), 9),
      },
    });
    expect(sideOf().points).toHaveLength(61);
    expect(sideOf({ grooveInnerMm: 146 }, 2).points).toHaveLength(2);
  });

  test('an arm that does not reach, or that would lie along the groove, is told with its place', () => {
    const why = (more: Partial<SkatingQuestion>) => {
      const answer = skatingOverSide({ ...question, ...more }, 2);
      return answer.found ? null : told(answer.why, 1);
    };
    // an arm shorter than the distance by more than the radius never comes to it
    expect(why({ effectiveLengthMm: 100 })).toBe('tip-does-not-reach radiusMm=60');
    // sin θ = 0.96 at 60 mm: over 1.2 rad
    const long = 279;
    const odd = (60 ** 2 + long ** 2 - D ** 2) / (120 * long);
    expect(Math.asin(odd)).toBeGreaterThan(1.2);
    expect(why({ effectiveLengthMm: long })).toBe(
      `no-playing-position radiusMm=60 degrees=${Number(((Math.asin(odd) * 180) / Math.PI).toFixed(1))}`,
    );
    const short = 163;
    const under = (60 ** 2 + short ** 2 - D ** 2) / (120 * short);
    expect(Math.asin(under)).toBeLessThan(-1.2);
    expect(why({ effectiveLengthMm: short })?.split(' ')[0]).toBe('no-playing-position');
  });

  test.each([
    [{ grooveOuterMm: 201 }, /outer groove radius/],
    [{ grooveInnerMm: 19 }, /inner groove radius/],
    [{ grooveInnerMm: 147 }, /inner groove radius/],
    [{ friction: -0.1 }, /friction/],
    [{ friction: 1.1 }, /friction/],
    [{ trackingForceMn: -1 }, /tracking force/],
    [{ trackingForceMn: 201 }, /tracking force/],
  ])('%o is refused by name', (odd, words) => {
    expect(() => sideOf(odd)).toThrow(words);
    for (const count of [1, 1001]) expect(() => sideOf({}, count)).toThrow(/count/);
  });
});

describe('what an anti-skating device is set to', () => {
  const side = sideOf();
  const mean = side.moment.mean;
  const left = (pull: number) => ({
    leftInnerMn: expect.closeTo((moment(60) - pull) / L, 9),
    leftOuterMn: expect.closeTo((moment(146) - pull) / L, 9),
  });
  const start = (device: AntiSkatingDevice, of: SkatingQuestion = question, on = sideOf(of)) => {
    const answer = antiSkatingStart(on, of, device);
    if (!answer.found) return { why: answer.why.code };
    const { says, ...rest } = answer;
    return { ...rest, says: says.map((one) => told(one)) };
  };
  /** k = 2: friction 0.3 ± 0.05 and the force to 1 % */
  const open = 2 * Math.hypot(0.05 / 0.3, 0.01);

  test('a thread, by its lever: a tenth of a gram from 0.95 g on, hundredths under it', () => {
    for (const [leverMm, code] of [
      [40, 'skating-thread'],
      [60, 'skating-thread-fine'],
    ] as const) {
      const grams = mean / G / leverMm;
      expect(grams > 0.95).toBe(leverMm === 40);
      const within = (open * grams).toFixed(open * grams < 0.95 ? 2 : 1);
      expect(start({ kind: 'thread', leverMm })).toEqual({
        found: true,
        setting: expect.closeTo(grams, 9),
        unit: 'g',
        uncertainty: expect.closeTo(open * grams, 5),
        ...left(mean),
        says: [`${code} grams=${Number(grams.toFixed(4))} within=${within} lever=${leverMm}`],
      });
    }
    // a very short lever leaves a gram and more open
    const within = ((open * mean) / G / 5).toFixed(1);
    expect(start({ kind: 'thread', leverMm: 5 })).toMatchObject({
      says: [expect.stringContaining(`within=${within} `)],
    });
  });

  test('a dial, by the friction that its maker took', () => {
    for (const [force, code] of [
      [18, 'skating-dial'],
      [5, 'skating-dial-fine'],
    ] as const) {
      const of = { ...question, trackingForceMn: force };
      const mn = (force * 0.3) / 0.25;
      const on = sideOf(of);
      expect(start({ kind: 'dial', dialFriction: 0.25 }, of)).toEqual({
        found: true,
        setting: expect.closeTo(mn, 9),
        unit: 'mN',
        uncertainty: expect.closeTo(open * mn, 5),
        leftInnerMn: expect.closeTo((on.inner.momentMnMm - on.moment.mean) / L, 9),
        leftOuterMn: expect.closeTo((on.outer.momentMnMm - on.moment.mean) / L, 9),
        says: [`${code} grams=${Number((mn / G).toFixed(4))} mn=${Number(mn.toFixed(4))} friction=0.25`],
      });
    }
    for (const odd of [0.04, 1.1]) expect(() => start({ kind: 'dial', dialFriction: odd })).toThrow(/dial’s friction/);
  });

  test('a notched lever takes the nearest notch, and says beyond which end the pull lies', () => {
    const wanted = mean / G / 2;
    const of = (notchesMm: readonly number[]) => start({ kind: 'notched-lever', weightG: 2, notchesMm });
    const notch = (at: number, beyond: string[] = []) => ({
      found: true,
      setting: at,
      unit: 'mm',
      uncertainty: null,
      ...left(2 * G * at),
      says: [`skating-notch notch=${at} wanted=${Number(wanted.toFixed(4))} grams=2`, ...beyond],
    });
    const round = (share: number) => Number((wanted * share).toFixed(3));
    expect(of([round(0.7), round(1.04), round(1.3)])).toEqual(notch(round(1.04)));
    expect(of([round(0.5), round(0.91)])).toEqual(notch(round(0.91)));
    expect(of([round(0.5), round(0.89)])).toEqual(notch(round(0.89), ['skating-notch-beyond weight=heavier']));
    expect(of([round(1.09), round(1.5)])).toEqual(notch(round(1.09)));
    expect(of([round(1.11), round(1.5)])).toEqual(notch(round(1.11), ['skating-notch-beyond weight=lighter']));
    // far from either neighbour and yet between them
    expect(of([round(0.8), round(1.5)])).toEqual(notch(round(0.8)));
    expect(of([])).toEqual({ why: 'no-notches' });
  });

  test('an arm that is not pulled inwards has no setting', () => {
    const none = { ...question, friction: 0 };
    for (const device of [
      { kind: 'thread', leverMm: 20 },
      { kind: 'dial', dialFriction: 0.25 },
      { kind: 'notched-lever', weightG: 2, notchesMm: [] },
    ] as const) {
      expect(start(device, none)).toEqual({ why: 'pull-not-inward' });
    }
  });
});

describe('in Match', () => {
  const input = { trackingForceMn: 18, effectiveLengthMm: L, spindleToPivotMm: D };

  test('whole: both ends with their doubt, and the curve between', () => {
    for (const [friction, note] of [
      [undefined, 'skating-friction-assumed'],
      [0.3, 'skating-friction-given'],
    ] as const) {
      const { findings, curves, advice, problems } = matchSkating({
        ...input,
        friction,
        grooveInnerMm: 60,
        grooveOuterMm: 146,
      });
      expect([advice, problems]).toEqual([[], []]);
      expect(findings).toMatchObject(
        [60, 146].map((r, i) => ({
          quantity: ['skating-force-inner', 'skating-force-outer'][i],
          value: expect.closeTo(5.4 * Math.tan(theta(r)), 9),
          unit: 'mN',
          uncertainty: expect.closeTo(2 * Math.hypot(0.05 * 18, 0.01 * 5.4) * Math.tan(theta(r)), 9),
          bands: [],
          verdict: 'info',
          notes: [{ code: note, values: { radiusMm: r, friction: 0.3 } }],
        })),
      );
      const { points } = sideOf();
      expect(curves).toEqual([
        {
          quantity: 'skating-force',
          x: points.map((p) => p.radiusMm),
          y: points.map((p) => p.forceMn),
          xUnit: 'mm',
          yUnit: 'mN',
        },
      ]);
    }
  });

  test('the usual grooves where none is stated, none where only one is; the arm’s reason where it cannot play them', () => {
    const radii = (more: object) =>
      matchSkating({ ...input, ...more }).findings.map(({ notes }) => notes?.[0].values.radiusMm);
    expect(radii({})).toEqual([60.325, 146.05]);
    const why = (more: object) =>
      matchSkating({ ...input, ...more }).problems.map(({ quantity, values }) => [quantity, values?.why]);
    const known = (what: string) => ({ code: 'not-known', values: { what, count: 1 } });
    for (const [more, what] of [
      [{ grooveInnerMm: 60 }, 'the outer groove radius'],
      [{ grooveOuterMm: 146 }, 'the inner groove radius'],
      [{ trackingForceMn: undefined }, 'the tracking force'],
      [{ effectiveLengthMm: undefined }, 'the effective length'],
      [{ spindleToPivotMm: undefined }, 'the distance from spindle to pivot'],
    ] as const) {
      expect(why(more)).toEqual([
        ['skating-force-inner', known(what)],
        ['skating-force-outer', known(what)],
      ]);
    }
    expect(why({ effectiveLengthMm: 100 })[1]).toEqual([
      'skating-force-outer',
      expect.objectContaining({ code: 'tip-does-not-reach' }),
    ]);
  });
});
