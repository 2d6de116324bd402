import { expect, it } from 'vitest';
import { gaussian } from './gaussian.fixture.ts';
import { solveSymmetric } from './solveSymmetric.ts';

it('solves and inverts random positive-definite systems of every size to 9 (seed 12)', () => {
  const draw = gaussian(12);
  for (let n = 1; n <= 9; n++) {
    const root = Array.from({ length: n + 3 }, () => Array.from({ length: n }, draw));
    const a = Array.from({ length: n }, (_, i) =>
      Array.from({ length: n }, (_, j) => root.reduce((sum, row) => sum + row[i] * row[j], 0)),
    );
    const x = Array.from({ length: n }, draw);
    const b = a.map((row) => row.reduce((sum, v, j) => sum + v * x[j], 0));
    const solved = solveSymmetric(a, b);
    for (let i = 0; i < n; i++) expect(solved?.solution[i]).toBeCloseTo(x[i], 8);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const product = a[i].reduce((sum, v, k) => sum + v * (solved?.inverse[k][j] ?? 0), 0);
        expect(product).toBeCloseTo(i === j ? 1 : 0, 7);
      }
    }
  }
});

it('says so where there is no solution', () => {
  expect(
    solveSymmetric(
      [
        [1, 1],
        [1, 1],
      ],
      [1, 1],
    ),
  ).toBeNull();
  expect(solveSymmetric([[Number.NaN]], [1])).toBeNull();
});
