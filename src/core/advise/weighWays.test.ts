import { describe, expect, test } from 'vitest';
import { forceAtRise } from '../mechanics/forceAndHeight.ts';
import { told, verdicts } from './told.fixture.ts';
import { counterweightPlan, forceAtRecord, forceFindings, forceOfMn, forceStart } from './weigh.ts';

const G = 9.80665;

describe('the counterweight', () => {
  const plan = { counterweightMassG: 100, effectiveLengthMm: 230, fromMn: 10, targetMn: 10, threadPitchMm: 1.5 };
  const perMm = (100 * G) / 230;

  test.each([
    [18, 'towards the tip', 1],
    [3, 'away from the tip', -1],
    [10, 'towards the tip', 0],
  ])('from 10 to %d mN it goes %s', (targetMn, way, sign) => {
    const forward = (targetMn - 10) / perMm;
    expect(Math.sign(forward)).toBe(sign);
    const turned = counterweightPlan({ ...plan, targetMn, dialPerTurnMn: 5 });
    expect(turned).toEqual({
      perMm: { mn: expect.closeTo(perMm, 9), g: expect.closeTo(100 / 230, 9) },
      forwardMm: expect.closeTo(forward, 9),
      turns: expect.closeTo(forward / 1.5, 9),
      perTurn: { mn: expect.closeTo(1.5 * perMm, 9), g: expect.closeTo(150 / 230, 9) },
      dialErrorPercent: expect.closeTo(100 * (5 / (1.5 * perMm) - 1), 9),
      says: expect.anything(),
    });
    const size = Number(Math.abs(forward).toFixed(4));
    expect(told(turned.says)).toBe(
      `counterweight-turns mm=${size} way=${way} mn=${perMm.toFixed(4)} g=0.4348 turns=${Number((Math.abs(forward) / 1.5).toFixed(4))}`,
    );
    const plain = counterweightPlan({ ...plan, targetMn, threadPitchMm: undefined, dialPerTurnMn: 5 });
    expect(plain).toMatchObject({ turns: null, perTurn: null, dialErrorPercent: null });
    expect(told(plain.says)).toBe(`counterweight-move mm=${size} way=${way} mn=${perMm.toFixed(4)} g=0.4348`);
    expect(counterweightPlan({ ...plan, targetMn }).dialErrorPercent).toBeNull();
  });

  test.each([
    [{ counterweightMassG: 0.4 }, /counterweight’s mass is 0.4 g/],
    [{ counterweightMassG: 2001 }, /counterweight’s mass/],
    [{ effectiveLengthMm: 49 }, /effective length/],
    [{ effectiveLengthMm: 1001 }, /effective length/],
    [{ fromMn: -201 }, /force now/],
    [{ fromMn: 201 }, /force now/],
    [{ targetMn: -1 }, /target force/],
    [{ targetMn: 201 }, /target force/],
    [{ dialPerTurnMn: 0.001 }, /dial/],
    [{ dialPerTurnMn: 501 }, /dial/],
  ])('%o is refused by name', (odd, words) => {
    expect(() => counterweightPlan({ ...plan, ...odd })).toThrow(words);
  });
});

describe('a gauge at another height, above the record and under it', () => {
  const arm = { force: 0.018, effectiveLength: 239, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 5 };
  const digit = (2 * 0.01 * G) / Math.sqrt(12);
  const own = (mn: number) => Math.hypot(0.02 * mn, digit);
  const read = (mn: number, heightMm: number, effect: Parameters<typeof forceAtRecord>[0]['effect']) => {
    const { notes, ...figures } = forceAtRecord({ readingG: mn / G, resolutionG: 0.01, heightMm, effect });
    return { ...figures, notes: notes.map((one) => told(one)) };
  };

  test.each([5, -5])('%d mm: the arm’s balance', (height) => {
    const there = 1e3 * forceAtRise(arm, height);
    const change = there - 18;
    expect(Math.sign(change)).toBe(Math.sign(height));
    expect(read(there, height, { kind: 'arm', arm: { ...arm, force: 0.001 } })).toEqual({
      force: { mn: expect.closeTo(18, 6), g: expect.closeTo(18 / G, 6) },
      correctionMn: expect.closeTo(change, 6),
      uncertaintyMn: expect.closeTo(Math.hypot(own(there), 0.2 * change), 6),
      notes: ['gauge-not-held', 'height-effect-arm'],
    });
  });

  test.each([
    [4, 0.2],
    [-4, 0.2],
    [4, -0.2],
    [-4, -0.2],
  ])('%d mm at %d mN for each mm higher', (height, slope) => {
    const effect = { kind: 'two-readings', lowMm: 1, lowMn: 18, highMm: 6, highMn: 18 + 5 * slope } as const;
    expect(read(18, height, effect)).toEqual({
      force: { mn: expect.closeTo(18 - slope * height, 9), g: expect.closeTo((18 - slope * height) / G, 9) },
      correctionMn: expect.closeTo(slope * height, 9),
      uncertaintyMn: expect.closeTo(Math.hypot(own(18), 0.2 * slope * height, (Math.SQRT2 * digit * 4) / 5), 9),
      notes: ['gauge-not-held', `height-effect-read slope=${slope}`],
    });
  });

  test.each([6, -6])('%d mm of an arm that is not known: nothing is taken off, 1 %% a mm is allowed', (height) => {
    expect(read(18, height, { kind: 'unknown' })).toEqual({
      force: { mn: expect.closeTo(18, 9), g: expect.closeTo(18 / G, 9) },
      correctionMn: 0,
      uncertaintyMn: expect.closeTo(Math.hypot(own(18), 0.06 * 18), 9),
      notes: ['gauge-not-held', 'height-effect-unknown'],
    });
  });

  test('at the record nothing is corrected; a calibrated gauge brings its own uncertainty and digit', () => {
    expect(read(18, 0, { kind: 'unknown' })).toEqual({
      force: { mn: expect.closeTo(18, 9), g: expect.closeTo(18 / G, 9) },
      correctionMn: 0,
      uncertaintyMn: expect.closeTo(own(18), 9),
      notes: ['gauge-not-held'],
    });
    const calibration = {
      factor: 0.98,
      factorStandardUncertainty: 0.001,
      readingStandardUncertainty: 0.004,
      readings: 3,
    };
    const effect = { kind: 'two-readings', lowMm: 0, lowMn: 18, highMm: 2, highMn: 18 } as const;
    const held = forceAtRecord({ readingG: 2, resolutionG: 0.1, heightMm: 3, calibration, effect });
    const spread = 2 * G * Math.hypot(2 * 0.001, 0.98 * 0.004);
    expect(held.force.g).toBeCloseTo(1.96, 9);
    expect(held.uncertaintyMn).toBeCloseTo(Math.hypot(spread, (Math.SQRT2 * 2 * G * 0.004 * 3) / 2), 9);
    expect(held.notes.map(({ code }) => code)).toEqual(['gauge-corrected', 'height-effect-read']);
  });

  test.each([
    [{ readingG: -0.1 }, /gauge’s reading/],
    [{ readingG: 20.1 }, /gauge’s reading/],
    [{ resolutionG: 0 }, /gauge’s last digit/],
    [{ resolutionG: 1.1 }, /gauge’s last digit/],
    [{ heightMm: -51 }, /height of the gauge/],
    [{ heightMm: 51 }, /height of the gauge/],
  ])('%o is refused by name', (odd, words) => {
    const question = { readingG: 1.8, resolutionG: 0.01, heightMm: 5, effect: { kind: 'unknown' } as const };
    expect(() => forceAtRecord({ ...question, ...odd })).toThrow(words);
  });

  test('two heights half a millimetre apart are two; forces beyond a gauge are refused', () => {
    const two = { kind: 'two-readings', lowMm: 1, lowMn: 18, highMm: 1.5, highMn: 18 } as const;
    expect(read(18, 5, two).correctionMn).toBe(0);
    expect(() => read(18, 5, { ...two, highMm: 1.4 })).toThrow(/at least 0.5 mm above/);
    for (const odd of [-1, 201]) {
      expect(() => read(18, 5, { ...two, lowMn: odd })).toThrow(/lower height/);
      expect(() => read(18, 5, { ...two, highMn: odd })).toThrow(/upper height/);
    }
  });
});

describe('dial, gauge and target', () => {
  const at = (mn: number, uncertaintyMn = 0.3) => ({ force: forceOfMn(mn), uncertaintyMn, correctionMn: 0, notes: [] });
  const judged = (question: Omit<Parameters<typeof forceFindings>[0], 'atRecord'>, mn: number, u?: number) =>
    verdicts(forceFindings({ ...question, atRecord: at(mn, u) }));

  test('a twentieth of the target off is good on either side, further is adjust', () => {
    // 20 mN: within 1 mN
    for (const mn of [19, 21]) expect(judged({ targetMn: 20 }, mn)).toEqual(['tracking-force good: force-at-record']);
    for (const mn of [18.99, 21.01])
      expect(judged({ targetMn: 20 }, mn)).toEqual(['tracking-force adjust: force-at-record']);
  });

  test('further off but within the uncertainty is told as too coarse a gauge, on either side', () => {
    for (const mn of [18, 22]) {
      expect(judged({ targetMn: 20 }, mn, 2)).toEqual(['tracking-force info: force-at-record gauge-too-coarse']);
      expect(judged({ targetMn: 20 }, mn, 1.99)).toEqual(['tracking-force adjust: force-at-record']);
    }
  });

  test('outside the range is bad, on it is not; one end alone counts', () => {
    const verdict = (mn: number, range: object) => judged({ targetMn: 20, ...range }, mn)[0].split(':')[0];
    expect(verdict(17.9, { leastMn: 18, mostMn: 22 })).toBe('tracking-force bad');
    expect(verdict(18, { leastMn: 18, mostMn: 22 })).toBe('tracking-force adjust');
    expect(verdict(22, { leastMn: 18, mostMn: 22 })).toBe('tracking-force adjust');
    expect(verdict(22.1, { leastMn: 18, mostMn: 22 })).toBe('tracking-force bad');
    expect(verdict(17.9, { leastMn: 18 })).toBe('tracking-force bad');
    expect(verdict(30, { leastMn: 18 })).toBe('tracking-force adjust');
    expect(verdict(22.1, { mostMn: 22 })).toBe('tracking-force bad');
    expect(verdict(10, { mostMn: 22 })).toBe('tracking-force adjust');
    // near the target and yet outside
    expect(verdict(20.5, { mostMn: 20.2 })).toBe('tracking-force bad');
  });

  test('the finding whole, with its sign towards the target', () => {
    for (const [mn, away] of [
      [18, -2],
      [22, 2],
    ]) {
      const [force, ...more] = forceFindings({ targetMn: 20, atRecord: at(mn) });
      expect(more).toEqual([]);
      expect(force).toMatchObject({ value: mn, unit: 'mN', uncertainty: 0.3, bands: [] });
      expect(told(force.notes![0])).toBe(`force-at-record g=${(mn / G).toFixed(4)} away=${away}`);
    }
  });

  test('a dial agrees within a tenth of the target or the gauge’s own doubt, on either side', () => {
    const dial = (dialMn: number, u?: number) => judged({ targetMn: 20, dialMn }, 20, u)[1];
    for (const mn of [18, 22]) expect(dial(mn)).toBe('dial-less-gauge good: dial-agrees');
    for (const mn of [17.9, 22.1]) expect(dial(mn)).toBe('dial-less-gauge adjust: dial-disagrees');
    for (const mn of [17, 23]) expect(dial(mn, 3)).toBe('dial-less-gauge good: dial-agrees');
    const [, under] = forceFindings({ targetMn: 20, dialMn: 17, atRecord: at(20) });
    expect(under).toMatchObject({ value: -3, unit: 'mN', uncertainty: 0.3, note: expect.stringContaining('Believe') });
  });

  test.each([
    [{ targetMn: 0.05 }, /target force/],
    [{ targetMn: 201 }, /target force/],
    [{ targetMn: 20, dialMn: -1 }, /dial/],
    [{ targetMn: 20, dialMn: 201 }, /dial/],
  ])('%o is refused by name', (question, words) => {
    expect(() => judged(question, 20)).toThrow(words);
  });
});

describe('where to start', () => {
  const said = (...of: Parameters<typeof forceStart>) => forceStart(...of).says.map((one) => told(one));
  const usual = 'room-usual from=20 to=25';

  test('whole', () => {
    expect(forceStart(15, 21)).toMatchObject({
      start: { mn: expect.closeTo(19, 12), g: expect.closeTo(19 / G, 12) },
      least: { mn: 15, g: expect.closeTo(15 / G, 12) },
      most: { mn: 21, g: expect.closeTo(21 / G, 12) },
    });
    expect(said(15, 21)).toEqual(['start-two-thirds', usual]);
    expect(said(15, 21, 18)).toEqual(['start-recommended', usual]);
    // two thirds of the way, and recommended so
    expect(said(15, 21, 19)).toEqual(['start-recommended', usual]);
    for (const mn of [14, 22])
      expect(said(15, 21, mn)).toEqual([`start-recommended-outside mn=${mn}`, 'start-two-thirds', usual]);
  });

  test('a room within 20 to 25 °C is as rated; cold and warm begin just outside', () => {
    const room = (temperature: number) => said(15, 21, undefined, temperature)[1];
    expect([20, 25].map(room)).toEqual([usual, usual]);
    expect(room(19.9)).toBe('room-cold temperature=19.9 from=20');
    expect(room(25.1)).toBe('room-warm temperature=25.1');
    for (const odd of [-20.1, 60.1]) expect(() => room(odd)).toThrow(/temperature/);
    expect([room(-20).split(' ')[0], room(60).split(' ')[0]]).toEqual(['room-cold', 'room-warm']);
  });
});
