/** Problems as they are shown to a person: many of one kind are told by the first ones and a count. */
import type { Problem } from './problem.ts';

/** So many of one kind are shown each by itself. */
const SHOWN_OF_A_KIND = 3;

export interface ShownProblem {
  readonly problem: Problem;
  /** problems of the same kind that are not shown by themselves and follow this one; 0 for most */
  readonly more: number;
  /** s, where the last of them ends; null where they have no place */
  readonly lastS: number | null;
}

/** Same code and same words in it, whatever its figures are. Without a place every sentence is a kind of its own. */
function kindOf({ code, message, values, startS }: Problem): string {
  if (startS === undefined || values === undefined) return `${code} ${message}`;
  const words = Object.entries(values).filter(([, value]) => typeof value !== 'number');
  return JSON.stringify([code, words]);
}

/**
 * @returns the problems in their order; of a kind that occurs more than four times the first three, the last of which says
 *   how many more there are
 * @checked shownProblems.test.ts
 */
export function shownProblems(problems: readonly Problem[]): ShownProblem[] {
  const kinds = new Map<string, Problem[]>();
  for (const problem of problems) {
    const kind = kindOf(problem);
    kinds.set(kind, [...(kinds.get(kind) ?? []), problem]);
  }
  const more = new Map<Problem, { more: number; lastS: number | null }>();
  const hidden = new Set<Problem>();
  for (const alike of kinds.values()) {
    if (alike.length <= SHOWN_OF_A_KIND + 1) continue;
    const rest = alike.slice(SHOWN_OF_A_KIND);
    for (const problem of rest) hidden.add(problem);
    const last = rest[rest.length - 1];
    more.set(alike[SHOWN_OF_A_KIND - 1], { more: rest.length, lastS: last.endS ?? last.startS ?? null });
  }
  return problems
    .filter((problem) => !hidden.has(problem))
    .map((problem) => ({ problem, more: 0, lastS: null, ...more.get(problem) }));
}
