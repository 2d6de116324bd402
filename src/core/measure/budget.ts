/** What an uncertainty is made of. */
import { type Statement, statement } from '../words/statement.ts';
import type { BudgetLine, Finding } from './finding.ts';

/** A part of an uncertainty; `size` expanded, k = 2. */
export interface Doubt {
  readonly of: Statement;
  readonly size: number;
}

/** @returns expanded total, and its parts that are not zero, largest first; shares of the whole variance */
export function budgetOf(
  doubts: readonly Doubt[],
  unit: string,
): { readonly total: number; readonly budget: BudgetLine[] } {
  const total = Math.hypot(...doubts.map(({ size }) => size));
  const budget = doubts
    .filter(({ size }) => size > 0)
    .map(({ of, size }) => ({ of, size, unit, share: (size / total) ** 2 }))
    .sort((a, b) => b.share - a.share);
  return { total, budget };
}

/** The figure with the total of the signal's own part and what else may hide in it, both k = 2. */
export function withBudget(figure: Omit<Finding, 'uncertainty'>, own: number, doubts: readonly Doubt[]): Finding {
  const { total, budget } = budgetOf([{ of: statement('signal'), size: own }, ...doubts], figure.unit);
  return { ...figure, uncertainty: total, repeatability: own, budget };
}
