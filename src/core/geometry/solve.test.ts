import { expect, test } from 'vitest';
import { type Arm, pivotedArm } from './arm.ts';
import { armOf } from './chosenArm.ts';
import { armFigures } from './distortion.ts';
import type { KnownLength } from './exact.ts';
import { closedFormArm, solveArm } from './solve.ts';
import { grooveSpan, ownSpan } from './span.ts';

const span = grooveSpan('12in');

test('the difference is that of each figure of the exact arm from the closed form’s', () => {
  for (const criterion of ['lofgren-a', 'lofgren-b', 'least-squares', 'stevenson'] as const) {
    const loudness = { peakVelocityCmS: 7, rpm: 45 };
    const solved = solveArm({ length: { known: 'spindle-to-pivot', mm: 190 }, span, criterion, loudness });
    if (!solved.found || !solved.value.exact.found) throw new Error(criterion);
    const { arm, figures: closed, exact } = solved.value;
    const { figures, difference, arm: bestArm } = exact.value;
    expect(armFigures(arm, span, loudness)).toEqual({ found: true, value: closed });
    expect(armFigures(bestArm, span, loudness)).toEqual({ found: true, value: figures });
    expect(solved.value.criterion).toBe(criterion);
    expect(difference).toEqual({
      nullPointsMm: [0, 1].map((i) => figures.nullPointsMm[i] - closed.nullPointsMm[i]),
      effectiveLengthMm: bestArm.effectiveLength - arm.effectiveLength,
      overhangMm: figures.overhangMm - closed.overhangMm,
      offsetDeg: figures.offsetDeg - closed.offsetDeg,
      peakDistortionPercent: figures.peakDistortionPercent - closed.peakDistortionPercent,
      rmsDistortionPercent: figures.rmsDistortionPercent - closed.rmsDistortionPercent,
    });
  }
});

test('the same arm comes from its pivot distance, its effective length and its overhang', () => {
  const arm = (length: KnownLength) => {
    const found = closedFormArm({ length, span, criterion: 'lofgren-a' });
    if (!found.found) throw new Error(found.why.code);
    return found.value.arm;
  };
  const one = arm({ known: 'spindle-to-pivot', mm: 222 });
  for (const other of [
    arm({ known: 'effective-length', mm: one.effectiveLength }),
    arm({ known: 'overhang', mm: one.effectiveLength - 222 }),
  ]) {
    expect(other.spindleToPivot).toBeCloseTo(222, 9);
    expect(other.effectiveLength).toBeCloseTo(one.effectiveLength, 9);
    expect(other.offset).toBeCloseTo(one.offset, 12);
  }
});

test('lengths that no arm has are refused by name, or have their reason', () => {
  const is = (known: KnownLength['known'], mm: number, of = ownSpan(20, 21)): unknown => {
    try {
      const found = closedFormArm({ length: { known, mm }, span: of, criterion: 'lofgren-a' });
      return found.found ? 'found' : found.why;
    } catch (e) {
      return (e as Error).message;
    }
  };
  // nulls of A for 20 to 21 mm: their product is (2 · 20 · 21)² / (41² − ½)
  const least = Math.sqrt(2500 + 705_600 / 1680.5);
  expect(is('effective-length', least + 0.01)).toBe('found');
  expect(is('effective-length', least - 0.01)).toEqual({
    code: 'length-too-short',
    values: { lengthMm: least - 0.01, leastMm: expect.closeTo(least, 3) },
  });
  expect(is('effective-length', 49)).toContain('effective length is 49 mm');
  expect(is('effective-length', 20_001)).toContain('effective length is 20001 mm');
  expect(is('effective-length', 20_000)).toBe('found');
  expect(is('spindle-to-pivot', 49.9)).toContain('spindle to pivot is 49.9 mm');
  expect(is('overhang', 0)).toEqual({ code: 'overhang-without-nulls', values: { overhangMm: 0 } });
  expect(is('overhang', -100)).toEqual({ code: 'overhang-without-nulls', values: { overhangMm: -100 } });
  expect(is('overhang', -100.1)).toContain('overhang is -100.1 mm');
  expect(is('overhang', 100.1)).toContain('overhang is 100.1 mm');
  // d = (P / o − o) / 2: 50 mm at 4.0359, 20 m at 0.010497
  expect(is('overhang', 4.03)).toBe('found');
  expect(is('overhang', 4.04)).toEqual({
    code: 'overhang-asks-pivot',
    values: { overhangMm: 4.04, pivotMm: expect.closeTo(49.94, 2), leastMm: 50, mostMm: 20_000 },
  });
  expect(is('overhang', 0.0105)).toBe('found');
  expect(is('overhang', 0.01048)).toMatchObject({ code: 'overhang-asks-pivot' });
});

test('a criterion for the music needs its weight', () => {
  const request = { length: { known: 'spindle-to-pivot', mm: 222 }, span, criterion: 'even-music' } as const;
  expect(() => solveArm(request)).toThrow('the criterion even-music needs a weight over radius; none was given');
});

test('an arm with no optimum of the exact law keeps its closed form, and why', () => {
  const solved = solveArm({ length: { known: 'spindle-to-pivot', mm: 20_000 }, span, criterion: 'lofgren-a' });
  expect(solved).toMatchObject({
    found: true,
    value: { criterion: 'lofgren-a', exact: { found: false, why: { code: 'no-exact-optimum' } } },
  });
});

test('figures with a pivot are of a pivoted arm, those without one of a tangential arm', () => {
  const pivoted = pivotedArm(222, 239.3, 0.4);
  const tangential: Arm = { kind: 'tangential', overhang: 1.5, offset: 0.02 };
  for (const arm of [pivoted, tangential]) {
    const figures = armFigures(arm, grooveSpan('12in'));
    if (!figures.found) throw new Error(figures.why.code);
    const again = armOf(figures.value);
    expect({ ...again, offset: 0 }).toEqual({ ...arm, offset: 0 });
    expect(again.offset).toBeCloseTo(arm.offset, 12);
  }
});
