import { describe, expect, test } from 'vitest';
import { forceAtRise } from '../mechanics/forceAndHeight.ts';
import { calibrateGauge } from '../mechanics/forceGauge.ts';
import { say, sayAll, statement } from '../words/statement.ts';
import { counterweightPlan, forceAtRecord, forceFindings, forceOfMn, forceStart } from './weigh.ts';

test('both units: 1 g is 9.80665 mN', () => {
  expect(forceOfMn(19.6133).g).toBeCloseTo(2, 12);
});

describe('counterweight to a target', () => {
  const plan = { counterweightMassG: 100, effectiveLengthMm: 230, fromMn: 0, targetMn: 19.6133, threadPitchMm: 1.5 };

  test('by hand: 2 g is 4.6 mm, 3.07 turns; a turn is 0.652 g', () => {
    const { forwardMm, turns, perTurn, says } = counterweightPlan(plan);
    expect(forwardMm).toBeCloseTo(4.6, 9);
    expect(turns).toBeCloseTo(4.6 / 1.5, 9);
    expect(perTurn?.g).toBeCloseTo(150 / 230, 9);
    expect(say(says)).toContain('4.6 mm towards the tip, 3.07 turns');
  });

  test('a ring made for another weight reads wrong by so much', () => {
    const made = counterweightPlan({ ...plan, dialPerTurnMn: (9.80665 * 150) / 230 });
    expect(made.dialErrorPercent).toBeCloseTo(0, 9);
    const other = counterweightPlan({ ...plan, counterweightMassG: 125, dialPerTurnMn: (9.80665 * 150) / 230 });
    expect(other.dialErrorPercent).toBeCloseTo(-20, 9);
  });

  test('less force is backward; a plain stub has no turns', () => {
    const back = counterweightPlan({ ...plan, fromMn: 25, targetMn: 18, threadPitchMm: undefined });
    expect(back.forwardMm).toBeLessThan(0);
    expect(back.turns).toBeNull();
    expect(say(back.says)).toContain('away from the tip');
    expect(say(back.says)).toMatch(/ \d+\.\d mm /);
    expect(() => counterweightPlan({ ...plan, targetMn: Number.NaN })).toThrow(/target force is NaN/);
  });
});

describe('gauge at another height', () => {
  const arm = { force: 0.018, effectiveLength: 239, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 5 };

  test('the arm’s balance takes the reading back to record height', () => {
    const onGauge = forceOfMn(1e3 * forceAtRise(arm, 5));
    const back = forceAtRecord({ readingG: onGauge.g, resolutionG: 0.01, heightMm: 5, effect: { kind: 'arm', arm } });
    expect(back.force.mn).toBeCloseTo(18, 6);
    expect(back.correctionMn).toBeGreaterThan(0);
  });

  test('two readings give the slope', () => {
    const effect = { kind: 'two-readings', lowMm: 1, lowMn: 18.2, highMm: 5, highMn: 19 } as const;
    const back = forceAtRecord({ readingG: forceOfMn(19).g, resolutionG: 0.01, heightMm: 5, effect });
    expect(back.force.mn).toBeCloseTo(18, 9);
    expect(() =>
      forceAtRecord({ readingG: 1.8, resolutionG: 0.01, heightMm: 5, effect: { ...effect, highMm: 1.1 } }),
    ).toThrow(/two heights are 1 and 1.1 mm/);
  });

  test('two readings near one another tell little: the digit of both grows with the way to the record', () => {
    const at = (highMm: number) =>
      forceAtRecord({
        readingG: forceOfMn(18).g,
        resolutionG: 0.1,
        heightMm: 6,
        effect: { kind: 'two-readings', lowMm: 6 - highMm, lowMn: 18, highMm: 6, highMn: 18 },
      });
    const digit = (2 * 0.1 * 9.80665) / Math.sqrt(12);
    const gauge = Math.hypot(0.02 * 18, digit);
    // no slope was seen: what is left open is the digit of two readings, 6 mm carried over 2 mm
    expect(at(2).uncertaintyMn).toBeCloseTo(Math.hypot(gauge, Math.SQRT2 * digit * 3), 9);
    expect(at(6).uncertaintyMn).toBeCloseTo(Math.hypot(gauge, Math.SQRT2 * digit), 9);
  });

  test('an unknown arm is left as read, with room for it in the uncertainty', () => {
    const low = forceAtRecord({ readingG: 1.8, resolutionG: 0.01, heightMm: 0, effect: { kind: 'unknown' } });
    const high = forceAtRecord({ readingG: 1.8, resolutionG: 0.01, heightMm: 6, effect: { kind: 'unknown' } });
    expect(high.force.mn).toBe(low.force.mn);
    expect(high.uncertaintyMn).toBeGreaterThan(low.uncertaintyMn);
    expect(sayAll(high.notes)).toContain('not known');
  });

  test('a calibrated gauge is corrected and trusted more', () => {
    const calibration = calibrateGauge([{ reference: 2, referenceUncertainty: 0.002, reading: 2.06 }], 0.001);
    const read = { readingG: 1.854, resolutionG: 0.001, heightMm: 0, effect: { kind: 'unknown' } } as const;
    const raw = forceAtRecord(read);
    const corrected = forceAtRecord({ ...read, calibration });
    expect(corrected.force.g).toBeCloseTo(1.8, 9);
    expect(corrected.uncertaintyMn).toBeLessThan(raw.uncertaintyMn);
  });
});

describe('dial, gauge and target', () => {
  const atRecord = {
    force: forceOfMn(18.2),
    uncertaintyMn: 0.3,
    correctionMn: 0,
    notes: [statement('gauge-corrected')],
  };

  test('good within a twentieth, adjust beyond, bad outside the range', () => {
    expect(forceFindings({ targetMn: 18, atRecord })[0].verdict).toBe('good');
    expect(forceFindings({ targetMn: 16, atRecord })[0].verdict).toBe('adjust');
    expect(forceFindings({ targetMn: 18, atRecord, leastMn: 19, mostMn: 22 })[0].verdict).toBe('bad');
  });

  test('what the reading cannot tell is not judged, whichever side of the range it falls on', () => {
    const coarse = { ...atRecord, uncertaintyMn: 3 };
    for (const question of [{ targetMn: 16 }, { targetMn: 20, leastMn: 19, mostMn: 22 }]) {
      const [force] = forceFindings({ ...question, atRecord: coarse });
      expect(force.verdict).toBe('info');
      expect(force.note).toContain('before you turn anything');
    }
    expect(forceFindings({ targetMn: 18, atRecord: coarse })[0].verdict).toBe('good');
    expect(forceFindings({ targetMn: 14, atRecord: coarse })[0].verdict).toBe('adjust');
  });

  test('a dial that disagrees is told, sign: dial less gauge', () => {
    const [, dial] = forceFindings({ targetMn: 18, dialMn: 21, atRecord });
    expect(dial.value).toBeCloseTo(2.8, 9);
    expect(dial.verdict).toBe('adjust');
    expect(dial.note).toContain('Believe the gauge');
  });
});

describe('where to start', () => {
  test('the recommendation, else two thirds up', () => {
    expect(forceStart(15, 20, 18).start.mn).toBe(18);
    expect(forceStart(15, 21).start.mn).toBeCloseTo(19, 12);
    expect(forceStart(15, 21, 40).start.mn).toBeCloseTo(19, 12);
    expect(sayAll(forceStart(15, 21, 40).says)).toContain(
      'The recommended 40.0 mN lies outside the range and is not used',
    );
    expect(sayAll(forceStart(15, 21).says)).toMatch(/^Two thirds/);
    expect(() => forceStart(20, 15)).toThrow(/range is 20 to 15 mN/);
  });

  test('cold and warm rooms', () => {
    expect(sayAll(forceStart(15, 20, 18, 12).says)).toContain('stiff');
    expect(sayAll(forceStart(15, 20, 18, 31).says)).toContain('soft');
    expect(sayAll(forceStart(15, 20, 18, 22).says)).toContain('20 to 25 °C');
    expect(() => forceStart(15, 20, 18, Number.NaN)).toThrow(/temperature is NaN/);
  });
});
