/**
 * What repeated readings say of themselves: mean, and a Type A uncertainty from their scatter alone.
 *
 *   s² = Σ(x − x̄)²/(n − 1)      U = k s/√n,  k for 95.45 % of Student's t with n − 1 degrees of freedom
 *
 * @source JCGM 100 (GUM) 4.2.2, 4.2.3 and G.3
 * @checked test/standards/repeats.test.ts, on the GUM's own example
 */
import { coverageFactor } from '../signal/robust.ts';

export interface TypeA {
  readonly count: number;
  readonly mean: number;
  /** of one reading, standard */
  readonly scatter: number;
  /** of the mean, expanded */
  readonly uncertainty: number;
}

/** @returns null of fewer than two */
export function typeA(values: readonly number[]): TypeA | null {
  const count = values.length;
  if (count < 2) return null;
  const mean = values.reduce((sum, v) => sum + v, 0) / count;
  const scatter = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (count - 1));
  return { count, mean, scatter, uncertainty: (coverageFactor(count - 1) * scatter) / Math.sqrt(count) };
}
