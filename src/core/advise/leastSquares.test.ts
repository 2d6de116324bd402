import { describe, expect, it } from 'vitest';
import { expanded, propagate } from './propagate.ts';
import { weightedLeastSquares } from './weightedLeastSquares.ts';

describe('weighted least squares', () => {
  const solve = (...of: Parameters<typeof weightedLeastSquares>) => {
    const fit = weightedLeastSquares(...of);
    if (!fit.found) throw new Error(fit.why.code);
    return fit;
  };

  it('a line by its closed form, with its covariance', () => {
    const [x, y, w] = [
      [-1, 0, 2, 5],
      [3, 1, 4, 9],
      [1, 4, 0.25, 2],
    ];
    const sum = (of: (i: number) => number) => x.reduce((total, _, i) => total + w[i] * of(i), 0);
    const [s, sx, sxx, sy, sxy] = [
      () => 1,
      (i: number) => x[i],
      (i: number) => x[i] ** 2,
      (i: number) => y[i],
      (i: number) => x[i] * y[i],
    ].map(sum);
    const det = s * sxx - sx * sx;
    const { parameters, covariance } = solve(
      x.map((v) => [1, v]),
      y,
      w,
    );
    expect(parameters).toEqual(
      [(sxx * sy - sx * sxy) / det, (s * sxy - sx * sy) / det].map((v) => expect.closeTo(v, 12)),
    );
    expect(covariance).toEqual(
      [
        [sxx / det, -sx / det],
        [-sx / det, s / det],
      ].map((row) => row.map((v) => expect.closeTo(v, 12))),
    );
  });

  it('three unknowns of very different size, in any order: what made the values comes back', () => {
    const rows = [
      [1e-6, 2, 3e5],
      [4e-6, -1, 1e5],
      [2e-6, 5, -2e5],
      [-3e-6, 1, 4e5],
    ];
    const truth = [2e6, -3, 5e-5];
    for (const order of [
      [0, 1, 2],
      [2, 0, 1],
      [1, 2, 0],
    ]) {
      const design = rows.map((row) => order.map((k) => row[k]));
      const values = rows.map((row) => row.reduce((sum, v, k) => sum + v * truth[k], 0));
      const { parameters } = solve(design, values, [1, 2, 3, 4]);
      parameters.forEach((v, k) => {
        expect(v / truth[order[k]]).toBeCloseTo(1, 9);
      });
    }
  });

  it('a first unknown that hides behind the second needs another pivot', () => {
    // normal matrix scaled: nearly alike, so that the order of elimination counts
    const design = [
      [1, 1],
      [1, 1.001],
      [0, 1],
    ];
    const { parameters } = solve(design, [3, 3.002, 2], [1, 1, 1]);
    expect(parameters).toEqual([expect.closeTo(1, 6), expect.closeTo(2, 6)]);
  });

  it('is told where nothing parts the unknowns, or where one has no reading', () => {
    const none = { found: false, why: { code: 'readings-not-enough', values: {} } };
    expect(
      weightedLeastSquares(
        [
          [1, 2],
          [2, 4],
        ],
        [1, 2],
        [1, 1],
      ),
    ).toEqual(none);
    expect(
      weightedLeastSquares(
        [
          [1, 0],
          [2, 0],
        ],
        [1, 2],
        [1, 1],
      ),
    ).toEqual(none);
    expect(
      weightedLeastSquares(
        [
          [0, 1],
          [0, 2],
        ],
        [1, 2],
        [1, 1],
      ),
    ).toEqual(none);
    expect(
      weightedLeastSquares(
        [
          [Number.NaN, 1],
          [1, 2],
        ],
        [1, 2],
        [1, 1],
      ),
    ).toEqual(none);
  });
});

describe('propagation of uncertainty', () => {
  const of = (value: number, standard: number) => ({ value, standard });

  it('slopes times spreads, squared and summed; twice that is k = 2', () => {
    const model = ({ a, b, c }: Readonly<Record<'a' | 'b' | 'c', number>>) => a * b - 7 * c;
    const inputs = { a: of(3, 0.1), b: of(-5, 0.2), c: of(0, 0.05) };
    const standard = Math.hypot(5 * 0.1, 3 * 0.2, 7 * 0.05);
    expect(propagate(model, inputs)).toEqual({ value: -15, standard: expect.closeTo(standard, 9) });
    expect(expanded(model, inputs)).toBeCloseTo(2 * standard, 9);
  });

  it('an input without spread is not asked about; one at zero is stepped by its spread, one of a tiny spread by that', () => {
    const asked: number[] = [];
    const model = ({ x }: Readonly<Record<'x', number>>) => {
      asked.push(x);
      return x * x;
    };
    expect(propagate(model, { x: of(2, 0) })).toEqual({ value: 4, standard: 0 });
    expect(asked).toEqual([2]);
    expect(propagate(model, { x: of(0, 0.5) }).standard).toBeCloseTo(0.25, 12);
    expect(asked.slice(1)).toEqual([0, 0.5]);
    asked.length = 0;
    propagate(model, { x: of(-2, 0.5) });
    expect(asked).toEqual([-2, expect.closeTo(-1.998, 12), expect.closeTo(-2.002, 12)]);
    asked.length = 0;
    propagate(model, { x: of(2, 1e-6) });
    expect(asked[1]).toBeCloseTo(2.000001, 12);
  });

  it('none where the model has none beside the value; a spread below zero is refused by name', () => {
    const model = ({ x }: Readonly<Record<'x', number>>) => (x > 2 ? Number.NaN : x);
    expect(propagate(model, { x: of(2, 0.1) })).toEqual({ value: 2, standard: null });
    expect(expanded(model, { x: of(2, 0.1) })).toBeNull();
    for (const odd of [-0.1, Number.NaN]) {
      expect(() => propagate(model, { x: of(1, odd) })).toThrow(
        `standard uncertainty of x is ${odd}; 0 or more was expected`,
      );
    }
  });
});
