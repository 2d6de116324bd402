/** Parts of an uncertainty → its total and the table behind it. */
import type { BudgetLine } from '../../measure/finding.ts';

/** A part of the budget, k = 2. */
export interface Doubt {
  readonly source: string;
  readonly size: number;
}

/** @returns expanded total, and its parts, largest first; shares are of the whole variance */
export function budgetOf(
  parts: readonly Doubt[],
  unit: string,
): { readonly total: number; readonly budget: BudgetLine[] } {
  const total = Math.hypot(...parts.map(({ size }) => size));
  const budget = parts
    .filter(({ size }) => size > 0)
    .map(({ source, size }) => ({ source, size, unit, share: (size / total) ** 2 }))
    .sort((a, b) => b.share - a.share);
  return { total, budget };
}
