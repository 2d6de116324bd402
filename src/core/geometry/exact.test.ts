import { describe, expect, test } from 'vitest';
import { armWithNulls, type PivotedArm, pivotedArm } from './arm.ts';
import { type CriterionName, closedFormNulls } from './criteria.ts';
import { peakWeighted, rmsWeighted } from './distortion.ts';
import { armFrom, cost, criterionNodes, exactOptimum, freeLength, type KnownLength } from './exact.ts';
import { weightedError } from './law.ts';
import { evenWeight } from './music.ts';
import { spanNodes } from './quadrature.ts';
import { type GrooveSpan, grooveSpan, ownSpan } from './span.ts';

const spans = [grooveSpan('12in'), grooveSpan('7in'), ownSpan(60, 140), ownSpan(90, 95)];

function started(criterion: CriterionName, d: number, span: GrooveSpan): PivotedArm {
  const { sum, product } = closedFormNulls(criterion, span, music);
  const arm = armWithNulls(d, sum, product);
  if (!arm.found) throw new Error(arm.why.code);
  return arm.value;
}

const music = [
  { radius: 60, weight: 4 },
  { radius: 120, weight: 1 },
];

/** Each way of knowing a length, for the closed form's own arm. */
const lengthsOf = ({ spindleToPivot: d, effectiveLength: L }: PivotedArm): readonly KnownLength[] => [
  { known: 'spindle-to-pivot', mm: d },
  { known: 'effective-length', mm: L },
  { known: 'overhang', mm: L - d },
];

function best(criterion: CriterionName, length: KnownLength, span: GrooveSpan, start: PivotedArm): PivotedArm {
  const found = exactOptimum(criterion, length, span, start, music);
  if (!found.found) throw new Error(found.why.code);
  const { spindleToPivot: d, effectiveLength: L } = found.value;
  // what is known stays as it is
  const known = { 'spindle-to-pivot': d, 'effective-length': L, overhang: L - d }[length.known];
  expect(known).toBeCloseTo(length.mm, 9);
  return found.value;
}

/** The lowest weighted error between the ends, by a fine look and a parabola through the three lowest. */
function dip(arm: PivotedArm, { inner, outer }: GrooveSpan): number {
  const step = (outer - inner) / 4000;
  const at = (i: number): number => weightedError(arm, inner + i * step);
  let low = 1;
  for (let i = 1; i < 4000; i++) if (at(i) < at(low)) low = i;
  const [a, b, c] = [at(low - 1), at(low), at(low + 1)];
  return b - (c - a) ** 2 / (8 * (a - 2 * b + c));
}

test('an arm is made from each length that may be known, and its free length read back', () => {
  for (const [known, mm, free, d, L] of [
    ['spindle-to-pivot', 222, 239, 222, 239],
    ['effective-length', 239, 222, 222, 239],
    ['overhang', 17, 222, 222, 239],
    ['overhang', -17, 222, 222, 205],
  ] as const) {
    const arm = armFrom({ known, mm }, free, 0.3);
    expect(arm).toEqual(pivotedArm(d, L, 0.3));
    expect(freeLength({ known, mm }, arm)).toBe(free);
  }
});

test('what a criterion makes small: the peak, the inner null before the peak, or the mean square', () => {
  const [arm, span] = [pivotedArm(222, 239, 0.39), spans[0]];
  const nodes = spanNodes(span.inner, span.outer, music);
  const peak = peakWeighted(arm, span);
  expect(cost('lofgren-a', arm, span, nodes)).toBe(peak);
  expect(cost('stevenson', arm, span, nodes)).toBeCloseTo(peak + 100 * Math.abs(weightedError(arm, span.inner)), 12);
  for (const criterion of ['lofgren-b', 'least-squares', 'even-music'] as const) {
    expect(cost(criterion, arm, span, nodes)).toBe(rmsWeighted(arm, nodes));
  }
});

test('least squares run over an even weight, that of the music only where it is asked for and given', () => {
  const [{ inner, outer }] = spans;
  const even = spanNodes(inner, outer, evenWeight);
  for (const criterion of ['lofgren-a', 'lofgren-b', 'least-squares', 'stevenson'] as const) {
    expect(criterionNodes(criterion, spans[0], music)).toEqual(even);
  }
  expect(criterionNodes('even-music', spans[0])).toEqual(even);
  expect(criterionNodes('even-music', spans[0], music)).toEqual(spanNodes(inner, outer, music));
});

describe('the optimum of the exact law', () => {
  const cases = spans.flatMap((span) => [150, 222, 400].map((d) => [span, d] as const));

  test('A: the errors at both ends and at the dip between are equal', () => {
    for (const [span, d] of cases) {
      const start = started('lofgren-a', d, span);
      for (const length of lengthsOf(start)) {
        const arm = best('lofgren-a', length, span, start);
        const inner = weightedError(arm, span.inner);
        expect(inner).toBeGreaterThan(0);
        expect(weightedError(arm, span.outer) / inner - 1).toBeCloseTo(0, 9);
        expect(-dip(arm, span) / inner - 1).toBeCloseTo(0, 6);
      }
    }
  });

  test('Stevenson: none at the inner groove, equal peaks after it', () => {
    for (const [span, d] of cases) {
      const start = started('stevenson', d, span);
      for (const length of lengthsOf(start)) {
        const arm = best('stevenson', length, span, start);
        const outer = weightedError(arm, span.outer);
        expect(outer).toBeGreaterThan(0);
        expect(weightedError(arm, span.inner) / outer).toBeCloseTo(0, 9);
        expect(-dip(arm, span) / outer - 1).toBeCloseTo(0, 6);
      }
    }
  });

  test.each(['least-squares', 'even-music'] as const)(
    '%s: neither length nor offset can be moved to the better',
    (criterion) => {
      for (const [span, d] of cases) {
        if (criterion === 'even-music' && span.outer < 100) continue;
        const start = started(criterion, d, span);
        const nodes = criterionNodes(criterion, span, music);
        for (const length of lengthsOf(start)) {
          const arm = best(criterion, length, span, start);
          const at = (p: number, q: number): number =>
            rmsWeighted(armFrom(length, freeLength(length, arm) + p, arm.offset + q), nodes) ** 2;
          for (const [p, q] of [
            [0.01, 0],
            [0, 1e-4],
          ]) {
            const [up, here, down] = [at(p, q), at(0, 0), at(-p, -q)];
            // the parabola through the three has its bottom within a ten-thousandth of the step
            expect(up + down - 2 * here).toBeGreaterThan(0);
            expect(Math.abs((up - down) / (up + down - 2 * here)) / 2).toBeLessThan(1e-3);
          }
        }
      }
    },
  );

  test('B: the linear offset of A as published, the length alone moved to its best', () => {
    for (const [span, d] of cases) {
      const start = started('lofgren-b', d, span);
      const half = closedFormNulls('lofgren-a', span).sum / 2;
      const nodes = criterionNodes('lofgren-b', span);
      for (const length of lengthsOf(start)) {
        const arm = best('lofgren-b', length, span, start);
        expect(arm.effectiveLength * Math.sin(arm.offset)).toBeCloseTo(half, 9);
        const at = (p: number): number => {
          const bare = armFrom(length, freeLength(length, arm) + p, 0);
          return rmsWeighted({ ...bare, offset: Math.asin(half / bare.effectiveLength) }, nodes) ** 2;
        };
        const [up, here, down] = [at(0.01), at(0), at(-0.01)];
        expect(up + down - 2 * here).toBeGreaterThan(0);
        expect(Math.abs((up - down) / (up + down - 2 * here)) / 2).toBeLessThan(1e-3);
      }
    }
  });

  test('it does not hang on where the search begins', () => {
    const span = spans[0];
    const length = { known: 'spindle-to-pivot', mm: 222 } as const;
    for (const criterion of ['lofgren-a', 'lofgren-b', 'least-squares', 'stevenson', 'even-music'] as const) {
      const near = best(criterion, length, span, started(criterion, 222, span));
      for (const [dL, turn] of [
        [1, 0.01],
        [-1, -0.01],
        [0.5, -0.02],
      ]) {
        const start = started(criterion, 222, span);
        const far = best(criterion, length, span, {
          ...start,
          effectiveLength: start.effectiveLength + dL,
          offset: start.offset + turn,
        });
        expect(far.effectiveLength, criterion).toBeCloseTo(near.effectiveLength, 7);
        expect(far.offset, criterion).toBeCloseTo(near.offset, 9);
      }
    }
  });

  test('arms shorter than 50 mm or longer than 20 m are none, and one that does not reach the span is told so', () => {
    const span = ownSpan(20, 21);
    const is = (length: KnownLength, d: number): string => {
      const found = exactOptimum(
        'lofgren-a',
        length,
        span,
        started('lofgren-a', Math.max(50, Math.min(d, 20_000)), span),
      );
      return found.found ? 'found' : found.why.code;
    };
    expect(is({ known: 'spindle-to-pivot', mm: 50 }, 50)).toBe('found');
    expect(is({ known: 'spindle-to-pivot', mm: 49.9 }, 50)).toBe('no-exact-optimum');
    expect(is({ known: 'effective-length', mm: Math.hypot(50.1, Math.sqrt(420)) }, 50.1)).toBe('found');
    expect(is({ known: 'effective-length', mm: 53.8 }, 50)).toBe('no-exact-optimum');
    expect(is({ known: 'spindle-to-pivot', mm: 19_990 }, 19_990)).toBe('found');
    expect(is({ known: 'spindle-to-pivot', mm: 20_000 }, 20_000)).toBe('no-exact-optimum');
    expect(is({ known: 'effective-length', mm: 20_001 }, 20_000)).toBe('no-exact-optimum');
    const start = { ...started('lofgren-a', 222, span), offset: Number.NaN };
    const lost = exactOptimum('lofgren-a', { known: 'spindle-to-pivot', mm: 222 }, span, start);
    expect(lost).toMatchObject({ found: false, why: { code: 'no-exact-optimum' } });
    const lostToo = exactOptimum('least-squares', { known: 'spindle-to-pivot', mm: 222 }, span, start);
    expect(lostToo).toMatchObject({ found: false, why: { code: 'no-exact-optimum' } });
  });
});
