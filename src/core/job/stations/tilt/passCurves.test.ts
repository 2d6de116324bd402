import { describe, expect, test } from 'vitest';
import { separationsOf } from '../../../advise/leaks.ts';
import { type ComplexLeaks, predictAfterTurn } from '../../../measure/tilt.ts';
import type { CaptureEntry } from '../../api.ts';
import { recordingFacts } from '../../recording.fixture.ts';
import { tiltedSide, turnAdvice } from '../../side.fixture.ts';
import { curvesFrom, passesOf } from './passes.ts';

const rad = Math.PI / 180;
const own: ComplexLeaks = { leftIntoRight: { re: 0.02, im: 0.015 }, rightIntoLeft: { re: 0.02, im: -0.01 } };
const at = (tiltDeg: number, leaks = own) => {
  const there = separationsOf(predictAfterTurn(leaks, -tiltDeg * rad));
  return { number: 0, tiltDeg, leftToRightDb: there.leftToRight, rightToLeftDb: there.rightToLeft };
};
const bare = { ...tiltedSide, advice: [] };

describe('passes of a job', () => {
  const heard = (id: string, ...findings: [string, number | string][]) =>
    ({
      ...recordingFacts,
      id,
      findings: findings.map(([quantity, value]) => ({ quantity, value })),
    }) as unknown as CaptureEntry;
  const whole = (id: string, tilt: number | string) =>
    heard(id, ['separation-right-to-left', 26], ['azimuth-error', tilt], ['separation-left-to-right', 30]);
  const passes = (...captures: CaptureEntry[]) => passesOf({ practice: false, fittings: [], captures });

  test('numbered among those that count, whether they tell a tilt or not', () => {
    const aside = { ...whole('c', 9), setAside: { at: '2026-03-04T09:00:00.000Z', why: 'dust' } };
    const pass = (number: number, tiltDeg: number, captureId: string) => ({
      number,
      tiltDeg,
      leftToRightDb: 30,
      rightToLeftDb: 26,
      captureId,
    });
    expect(passes(whole('a', 0.9), heard('b'), aside, whole('d', 0.1))).toEqual([pass(1, 0.9, 'a'), pass(3, 0.1, 'd')]);
    expect(passes()).toEqual([]);
  });

  test('a recording without one of the three figures, or with a word for one, is none', () => {
    const [tilt, left, right] = [
      ['azimuth-error', 0.9],
      ['separation-left-to-right', 30],
      ['separation-right-to-left', 26],
    ] as [string, number][];
    expect(
      passes(heard('a', tilt, left), heard('b', tilt, right), heard('c', left, right), whole('d', 'open')),
    ).toEqual([]);
  });
});

describe('curves', () => {
  test('121 tilts from end to end', () => {
    const curves = curvesFrom(bare, 3, [at(0.9), at(-0.4)]);
    expect(curves?.tiltDeg).toHaveLength(121);
    expect([curves?.tiltDeg[0], curves?.tiltDeg[60], curves?.tiltDeg[120]]).toEqual([-3, 0, 3]);
    expect(curves?.tiltDeg[61]).toBeCloseTo(0.05, 12);
    expect(curves?.leftToRightDb).toHaveLength(121);
  });

  test('from the two passes furthest apart, whatever their order and whatever lies between', () => {
    const odd = { ...at(0.3), leftToRightDb: 20, rightToLeftDb: 20 };
    const expected = curvesFrom(bare, 3, [at(-0.4), at(0.9)]);
    for (const passes of [
      [at(0.9), at(-0.4)],
      [odd, at(0.9), at(-0.4)],
      [at(-0.4), odd, at(0.9)],
    ]) {
      expect(curvesFrom(bare, 3, passes)).toEqual(expected);
    }
  });

  test('two passes fix no phase closer together than 0.3°, and one none', () => {
    expect(curvesFrom(bare, 3, [at(0), at(0.29)])).toBeNull();
    expect(curvesFrom(bare, 3, [at(0), at(0.3)])).not.toBeNull();
    expect(curvesFrom(bare, 3, [at(0.5)])).toBeNull();
    expect(curvesFrom(bare, 3, [])).toBeNull();
  });

  test('a forecast goes before passes; one of less than 0.1°, or without both separations, is none', () => {
    const passes = [at(0.9), at(-0.4)];
    const byPasses = curvesFrom(bare, 3, passes);
    const advised = (more: object) => ({ ...tiltedSide, advice: [{ ...turnAdvice, ...more }] });
    expect(curvesFrom(advised({}), 3, passes)).not.toEqual(byPasses);
    expect(curvesFrom(advised({ amount: 0.11 }), 3, [])).not.toBeNull();
    expect(curvesFrom(advised({ amount: 0.09 }), 3, passes)).toEqual(byPasses);
    expect(curvesFrom(advised({ action: 'leave-tilt' }), 3, passes)).toEqual(byPasses);
    for (const i of [0, 1]) {
      expect(curvesFrom(advised({ predicts: [turnAdvice.predicts[i]] }), 3, passes)).toEqual(byPasses);
    }
    const untold = {
      ...advised({}),
      findings: tiltedSide.findings.filter(({ quantity }) => quantity !== 'azimuth-error'),
    };
    expect(curvesFrom(untold, 3, passes)).toEqual(byPasses);
    expect(curvesFrom(untold, 3)).toBeNull();
  });

  test('the forecast is of the tilt that the turn leaves, whichever way it turns', () => {
    const forecast = (from: number, to: number) => ({
      ...tiltedSide,
      findings: tiltedSide.findings.map((one) => {
        const { tiltDeg, leftToRightDb, rightToLeftDb } = at(from);
        const values: Record<string, number> = {
          'azimuth-error': tiltDeg,
          'separation-left-to-right': leftToRightDb,
          'separation-right-to-left': rightToLeftDb,
        };
        return { ...one, value: values[one.quantity] ?? one.value };
      }),
      advice: [
        {
          ...turnAdvice,
          amount: Math.abs(to - from),
          direction: to > from ? 'clockwise-from-front' : 'anticlockwise-from-front',
          predicts: [
            { quantity: 'separation-left-to-right', value: at(to).leftToRightDb, unit: 'dB' },
            { quantity: 'separation-right-to-left', value: at(to).rightToLeftDb, unit: 'dB' },
          ],
        },
      ],
    });
    for (const [from, to] of [
      [0.9, -0.4],
      [-1.2, 0.3],
    ]) {
      const curves = curvesFrom(forecast(from, to), 3);
      curves?.tiltDeg.forEach((deg, i) => {
        expect(curves.leftToRightDb[i]).toBeCloseTo(at(deg).leftToRightDb, 6);
        expect(curves.rightToLeftDb[i]).toBeCloseTo(at(deg).rightToLeftDb, 6);
      });
      expect(curves).not.toBeNull();
    }
  });

  test('no separation is told deeper than 60 dB', () => {
    const pure: ComplexLeaks = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };
    const curves = curvesFrom(bare, 3, [at(-1, pure), at(1, pure)]);
    expect(Math.max(...(curves?.leftToRightDb ?? []))).toBe(60);
    expect(curves?.rightToLeftDb[60]).toBe(60);
    expect(curves?.rightToLeftDb[0]).toBeCloseTo(-20 * Math.log10(Math.tan(3 * rad)), 6);
  });

  test('readings that contradict each other leave nothing in quadrature, and still give curves', () => {
    const odd = [
      { number: 1, tiltDeg: -1, leftToRightDb: 20, rightToLeftDb: 50 },
      { number: 2, tiltDeg: 1, leftToRightDb: 60, rightToLeftDb: 21 },
    ];
    const curves = curvesFrom(bare, 3, odd);
    expect(curves?.leftToRightDb.every(Number.isFinite)).toBe(true);
    expect(curves?.rightToLeftDb.every(Number.isFinite)).toBe(true);
  });
});
