/**
 * Arm geometry against recorded check values (checks/geometry), against SciPy's optimisers, and by its own invariants.
 * The last test counts the comparisons: none can be dropped in silence.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { speedNames, strobeRing } from '../../src/core/draw/strobe.ts';
import { pivotedArm } from '../../src/core/geometry/arm.ts';
import { constrainArm, fixedAt } from '../../src/core/geometry/constrain.ts';
import { type CriterionName, closedFormNulls } from '../../src/core/geometry/criteria.ts';
import { harmonicScale, peaks, peakWeighted, usualLoudness } from '../../src/core/geometry/distortion.ts';
import { errorWithinReach, nullRadii, secondHarmonic, trackingError } from '../../src/core/geometry/law.ts';
import { musicWeight } from '../../src/core/geometry/music.ts';
import { solveArm } from '../../src/core/geometry/solve.ts';
import { grooveSpan, namedSpans, ownSpan } from '../../src/core/geometry/span.ts';
import { degToRad, grooveVelocity, radToDeg } from '../../src/core/units/units.ts';

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../checks/geometry/${name}`, import.meta.url), 'utf8'));
const values = read('values.json');
const outside = read('exact_optimum.json');
const NAMED = ['lofgren-a', 'lofgren-b', 'least-squares', 'stevenson'] as const;
const seed = 20261124;

/** Largest miss and number of comparisons, by table. */
const tally = new Map<string, { count: number; worst: number; tolerance: number }>();
function compare(table: string, got: number, expected: number, tolerance: number): void {
  const row = tally.get(table) ?? { count: 0, worst: 0, tolerance: 0 };
  row.count += 1;
  row.tolerance = Math.max(row.tolerance, tolerance);
  row.worst = Math.max(row.worst, Math.abs(got - expected));
  tally.set(table, row);
  expect(Math.abs(got - expected), `${table}: ${got} against ${expected}`).toBeLessThanOrEqual(tolerance);
}

function solve(criterion: CriterionName, inner: number, outer: number, d: number) {
  const solved = solveArm({ length: { known: 'spindle-to-pivot', mm: d }, span: ownSpan(inner, outer), criterion });
  if (!solved.found) throw new Error(solved.why.code);
  return solved.value;
}
function exactOf(criterion: CriterionName, inner: number, outer: number, d: number) {
  const { exact } = solve(criterion, inner, outer, d);
  if (!exact.found) throw new Error(exact.why.code);
  return exact.value;
}

test('null radii in closed form', () => {
  for (const row of values.closedForm) {
    for (const criterion of NAMED) {
      if (row[criterion] === undefined) continue;
      const { sum, product } = closedFormNulls(criterion, ownSpan(row.inner, row.outer));
      const root = Math.sqrt((sum * sum) / 4 - product);
      compare('closed form, mm', sum / 2 - root, row[criterion][0], row.digits);
      compare('closed form, mm', sum / 2 + root, row[criterion][1], row.digits);
    }
  }
});

test('optima of the exact law', () => {
  for (const row of values.exact) {
    for (const criterion of NAMED) {
      const { figures } = exactOf(criterion, row.inner, 146.05, row.spindleToPivot);
      compare('exact law, mm', figures.nullPointsMm[0], row[criterion][0], 0.0011);
      compare('exact law, mm', figures.nullPointsMm[1], row[criterion][1], 0.0011);
    }
  }
  for (const row of values.exactAtFixedOffset) {
    const { arm } = exactOf('lofgren-a', row.inner, 146.05, row.spindleToPivot);
    const best = constrainArm({
      length: { known: 'spindle-to-pivot', mm: row.spindleToPivot },
      span: ownSpan(row.inner, 146.05),
      criterion: 'least-squares',
      limits: { offset: fixedAt(arm.offset) },
    });
    if (!best.found) throw new Error(best.why.code);
    compare('exact law at fixed offset, mm', best.value.figures.nullPointsMm[0], row.nulls[0], 0.0011);
    compare('exact law at fixed offset, mm', best.value.figures.nullPointsMm[1], row.nulls[1], 0.0011);
  }
});

test('worked arms: lengths, angles, errors and distortion', () => {
  for (const row of values.worked) {
    const { arm } = solve(row.criterion, row.inner, 146.05, row.d);
    compare('worked lengths, mm', arm.effectiveLength, row.L, 0.0006);
    compare('worked lengths, mm', arm.effectiveLength - arm.spindleToPivot, row.overhang, 0.0006);
    compare('worked angles, deg', radToDeg(arm.offset), row.offset, 0.0006);
    const error = (r: number) => errorWithinReach(arm, r);
    compare('worked errors, deg', radToDeg(error(row.inner)), row.errInner, 0.0006);
    compare('worked errors, deg', radToDeg(error(146.05)), row.errOuter, 0.0006);
    const low = Math.sqrt(arm.effectiveLength ** 2 - arm.spindleToPivot ** 2);
    compare('worked errors, deg', radToDeg(error(low)), row.errLow, 0.0006);
    const harmonic = (r: number) => 100 * secondHarmonic(error(r), r, 10, 100 / 3);
    compare('worked distortion, %', harmonic(row.inner), row.h2Inner, 0.0006);
    compare('worked distortion, %', harmonic(146.05), row.h2Outer, 0.0006);
    const dip = peaks(arm, ownSpan(row.inner, 146.05))[1];
    compare('worked distortion, %', harmonic(dip.radius), row.h2Low, 0.0006);
    compare('worked distortion, %', 100 * harmonicScale(usualLoudness) * dip.weighted, row.h2Low, 0.0006);
  }
});

test('the exact law at points', () => {
  const arm = solve('lofgren-a', 60.325, 146.05, 222).arm;
  compare('points, deg', radToDeg(errorWithinReach(arm, 80) + arm.offset), 22.057955, 1e-6);
  compare('points, deg', radToDeg(errorWithinReach(arm, 80)), -0.927569, 1e-6);
  compare('points, deg', radToDeg(errorWithinReach(arm, 100)), -0.920659, 1e-6);
  compare('points, deg', radToDeg(errorWithinReach(arm, 146.05)), 1.805613, 1e-6);
});

test('second harmonic against the kinematics', () => {
  const r = 100;
  const V = grooveVelocity(100 / 3, r) * 100;
  for (const row of values.harmonics) {
    const simple = 100 * secondHarmonic(degToRad(row.degrees), r, row.ratio * V, 100 / 3);
    compare('harmonic, %', simple, row.simple, 6e-7);
    // the simple formula stands within 0.06 % of itself of the kinematics
    compare('harmonic against kinematics, relative', simple / row.percent, 1, 0.0006);
  }
});

test('strobe rings', () => {
  for (const row of values.strobe) {
    const ring = strobeRing(row.mains, speedNames[row.rpm]);
    compare('strobe, bars', ring.bars, row.bars, 0);
    compare('strobe, rpm', ring.standsForRpm, row.standsFor, 5e-6);
    compare('strobe, %', ring.errorPercent, row.errorPercent, 6e-4);
  }
  const neighbour = (60 * 100) / 134;
  compare('strobe, rpm', neighbour, 44.77612, 5e-6);
});

test('SciPy optimisers, as recorded', () => {
  for (const row of outside.optima) {
    const { figures } = exactOf(row.criterion, row.inner, row.outer, row.spindleToPivot);
    compare('SciPy, mm', figures.nullPointsMm[0], row.nulls[0], 0.001);
    compare('SciPy, mm', figures.nullPointsMm[1], row.nulls[1], 0.001);
    compare('SciPy, mm', figures.effectiveLengthMm ?? 0, row.effectiveLength, 0.0001);
  }
  for (const [i, row] of outside.harmonics.entries()) {
    compare('SciPy kinematics, %', row.percent, values.harmonics[i].percent, 1e-6);
  }
});

test('SciPy optimisers, made again here', () => {
  const script = new URL('../../checks/geometry/exact_optimum.py', import.meta.url).pathname;
  const python = ['/usr/bin/python3', 'python3'].find(
    (name) => spawnSync(name, ['-c', 'import scipy'], { encoding: 'utf8' }).status === 0,
  );
  expect(outside.optima.length).toBe(24);
  if (python === undefined) throw new Error('Python with SciPy is needed; npm test installs it');
  const run = spawnSync(python, [script, '222'], { encoding: 'utf8' });
  expect(run.status, run.stderr).toBe(0);
  const fresh = JSON.parse(run.stdout);
  expect(fresh.optima.length).toBe(3);
  for (const row of fresh.optima) {
    const recorded = outside.optima.find(
      (other: typeof row) =>
        other.criterion === row.criterion && other.inner === row.inner && other.spindleToPivot === row.spindleToPivot,
    );
    expect(Math.abs(recorded.nulls[0] - row.nulls[0])).toBeLessThan(0.002);
    expect(Math.abs(recorded.nulls[1] - row.nulls[1])).toBeLessThan(0.002);
  }
});

describe('closed form and exact law, two independent methods', () => {
  // largest difference of the null radii over 200 to 290 mm, by criterion: inner and outer, mm
  test.each([
    ['lofgren-a', 0.03, 0.22],
    ['lofgren-b', 0.035, 0.035],
    ['least-squares', 0.03, 0.08],
    ['stevenson', 1e-9, 0.29],
  ] as const)('%s: inner within %d mm, outer within %d mm', (criterion, inner, outer) => {
    let [worstInner, worstOuter] = [0, 0];
    for (const ri of [60.325, 57.5]) {
      for (const d of [200, 215, 222, 250, 290]) {
        const [a, b] = exactOf(criterion, ri, 146.05, d).difference.nullPointsMm;
        worstInner = Math.max(worstInner, Math.abs(a));
        worstOuter = Math.max(worstOuter, Math.abs(b));
      }
    }
    console.log(
      `${criterion}: closed form against exact law, inner ${worstInner.toFixed(4)} mm, outer ${worstOuter.toFixed(4)} mm`,
    );
    expect(worstInner).toBeLessThanOrEqual(inner);
    expect(worstOuter).toBeLessThanOrEqual(outer);
  });

  test('they meet as the arm grows: within 0.01 mm at 10 000 mm', () => {
    for (const criterion of NAMED) {
      for (const miss of exactOf(criterion, 60.325, 146.05, 10_000).difference.nullPointsMm) {
        expect(Math.abs(miss)).toBeLessThanOrEqual(0.01);
      }
    }
  });

  test('the exact optimum is never worse than the closed form in its own measure', () => {
    for (const span of namedSpans) {
      for (const d of [180, 222, 310, 450]) {
        for (const criterion of ['lofgren-a', 'least-squares'] as const) {
          const { difference } = exactOf(criterion, span.inner, span.outer, d);
          const worse = criterion === 'lofgren-a' ? difference.peakDistortionPercent : difference.rmsDistortionPercent;
          expect(worse).toBeLessThanOrEqual(1e-9);
        }
      }
    }
  });
});

describe(`invariants (seed ${seed})`, () => {
  const spans = fc.record({
    inner: fc.double({ min: 40, max: 75, noNaN: true }),
    width: fc.double({ min: 20, max: 95, noNaN: true }),
    d: fc.double({ min: 180, max: 450, noNaN: true }),
    criterion: fc.constantFrom(...NAMED),
  });
  const check = (property: fc.IProperty<[{ inner: number; width: number; d: number; criterion: CriterionName }]>) =>
    fc.assert(property, { seed, numRuns: 60 });

  test('scaling every length keeps every angle', () => {
    check(
      fc.property(spans, ({ inner, width, d, criterion }) => {
        const k = 1.15;
        const one = solve(criterion, inner, inner + width, d).arm;
        const larger = solve(criterion, k * inner, k * (inner + width), k * d).arm;
        expect(larger.offset).toBeCloseTo(one.offset, 12);
        expect(larger.effectiveLength).toBeCloseTo(k * one.effectiveLength, 8);
        for (const r of [inner, inner + width / 3, inner + width]) {
          expect(errorWithinReach(larger, k * r)).toBeCloseTo(errorWithinReach(one, r), 12);
        }
      }),
    );
  });

  test('null radii are roots of the exact law, with the sum and product that L, d and φ state', () => {
    check(
      fc.property(spans, ({ inner, width, d, criterion }) => {
        const { arm } = exactOf(criterion, inner, inner + width, d);
        const nulls = nullRadii(arm);
        expect(nulls.length).toBe(2);
        for (const n of nulls) {
          const error = trackingError(arm, n);
          expect(error.found && Math.abs(error.value)).toBeLessThan(1e-12);
        }
        expect(nulls[0] + nulls[1]).toBeCloseTo(2 * arm.effectiveLength * Math.sin(arm.offset), 8);
        expect(nulls[0] * nulls[1]).toBeCloseTo(arm.effectiveLength ** 2 - d * d, 6);
      }),
    );
  });

  test('a weight that leans inward moves both nulls inward; turned round, outward', () => {
    check(
      fc.property(spans, ({ inner, width, d }) => {
        const outer = inner + width;
        const nulls = (a: number, b: number): readonly number[] => {
          const solved = solveArm({
            length: { known: 'spindle-to-pivot', mm: d },
            span: ownSpan(inner, outer),
            criterion: 'even-music',
            music: musicWeight([
              { radius: inner, weight: a },
              { radius: outer, weight: b },
            ]),
          });
          if (!solved.found || !solved.value.exact.found) throw new Error('no arm');
          return [...solved.value.figures.nullPointsMm, ...solved.value.exact.value.figures.nullPointsMm];
        };
        const [inward, level, outward] = [nulls(4, 1), nulls(1, 1), nulls(1, 4)];
        for (let i = 0; i < 4; i++) {
          expect(inward[i]).toBeLessThan(level[i]);
          expect(level[i]).toBeLessThan(outward[i]);
        }
      }),
    );
  });

  test('a level weight is plain least squares, whatever its scale', () => {
    check(
      fc.property(spans, ({ inner, width, d }) => {
        const request = { length: { known: 'spindle-to-pivot', mm: d } as const, span: ownSpan(inner, inner + width) };
        const plain = solveArm({ ...request, criterion: 'least-squares' });
        const weighted = solveArm({
          ...request,
          criterion: 'even-music',
          music: musicWeight([
            { radius: 30, weight: 7 },
            { radius: 190, weight: 7 },
          ]),
        });
        if (!plain.found || !weighted.found) throw new Error('no arm');
        expect(weighted.value.arm.effectiveLength).toBeCloseTo(plain.value.arm.effectiveLength, 9);
        expect(weighted.value.arm.offset).toBeCloseTo(plain.value.arm.offset, 11);
      }),
    );
  });

  test('equal peaks: no neighbour of the exact optimum has a lower peak', () => {
    check(
      fc.property(spans, ({ inner, width, d }) => {
        const span = ownSpan(inner, inner + width);
        const { arm } = exactOf('lofgren-a', inner, inner + width, d);
        const least = peakWeighted(arm, span);
        for (const [dL, dp] of [
          [0.01, 0],
          [-0.01, 0],
          [0, 1e-4],
          [0, -1e-4],
          [0.01, 1e-4],
          [-0.01, -1e-4],
        ]) {
          const near = pivotedArm(d, arm.effectiveLength + dL, arm.offset + dp);
          expect(peakWeighted(near, span)).toBeGreaterThanOrEqual(least * (1 - 1e-9));
        }
      }),
    );
  });

  test('the same arm comes from any one length', () => {
    check(
      fc.property(spans, ({ inner, width, d, criterion }) => {
        const span = ownSpan(inner, inner + width);
        const { arm } = solve(criterion, inner, inner + width, d);
        for (const length of [
          { known: 'effective-length', mm: arm.effectiveLength },
          { known: 'overhang', mm: arm.effectiveLength - d },
        ] as const) {
          const other = solveArm({ length, span, criterion });
          if (!other.found) throw new Error(other.why.code);
          expect(other.value.arm.spindleToPivot).toBeCloseTo(d, 7);
          expect(other.value.arm.offset).toBeCloseTo(arm.offset, 9);
        }
      }),
    );
  });

  test('seen in a mirror: the offset’s sign turns with the error’s', () => {
    check(
      fc.property(spans, ({ inner, width, d, criterion }) => {
        const { arm } = solve(criterion, inner, inner + width, d);
        const theta = (r: number) => errorWithinReach(arm, r) + arm.offset;
        const mirrored = pivotedArm(d, arm.effectiveLength, -arm.offset);
        for (const r of [inner, inner + width]) {
          expect(errorWithinReach(mirrored, r)).toBeCloseTo(theta(r) + arm.offset, 12);
        }
      }),
    );
  });
});

test('spans: editions by name, and the 12-inch pair that must not be mixed up', () => {
  expect(grooveSpan('12in')).toMatchObject({ inner: 60.325, outer: 146.05 });
  expect(grooveSpan('12in-iec-1964').outer).toBe(146.3);
  expect(grooveSpan('12in-din-1981')).toMatchObject({ inner: 57.5, outer: 146.3 });
  expect(grooveSpan('din-1981,iec-1958')).toMatchObject({ inner: 57.5, outer: 146.05 });
  expect(grooveSpan('12in-iec-1958')).toMatchObject({ inner: 60, outer: 146.05 });
  for (const span of namedSpans.filter(({ name }) => name.startsWith('78')))
    expect(span.source).toContain('from memory');
});

afterAll(() => {
  const rows = [...tally].map(
    ([name, { count, worst, tolerance }]) =>
      `  ${name.padEnd(40)} ${String(count).padStart(4)} compared, worst ${worst.toExponential(1)}, allowed ${tolerance}`,
  );
  console.log(`arm geometry against checks/geometry\n${rows.join('\n')}`);
  expect(Object.fromEntries([...tally].map(([name, { count }]) => [name, count]))).toEqual({
    'closed form, mm': 42,
    'exact law, mm': 80,
    'exact law at fixed offset, mm': 8,
    'worked lengths, mm': 36,
    'worked angles, deg': 18,
    'worked errors, deg': 54,
    'worked distortion, %': 72,
    'points, deg': 4,
    'harmonic, %': 4,
    'harmonic against kinematics, relative': 4,
    'strobe, bars': 10,
    'strobe, rpm': 11,
    'strobe, %': 10,
    'SciPy, mm': 72,
    'SciPy kinematics, %': 4,
  });
});
