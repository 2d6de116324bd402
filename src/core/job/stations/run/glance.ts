/** Run at a glance: of every group of figures its verdict and what tells most; the rest is for whoever opens it. */
import type { JudgedFinding, Verdict } from '../../../advise/document.ts';
import { type Group, groupTitles, quantityOf } from '../../../words/quantities.ts';

export interface Glance {
  readonly group: Group;
  readonly title: string;
  /** the worst of the whole group */
  readonly verdict: Verdict;
  /** one of each quantity, the worst first */
  readonly shown: readonly JudgedFinding[];
  /** figures of the group that are not shown */
  readonly more: number;
}

/** In the order in which a bench works. */
const groupOrder: readonly Group[] = [
  'speed',
  'channels',
  'resonance',
  'geometry',
  'response',
  'distortion',
  'noise',
  'chain',
  'other',
];

const MOST_SHOWN = 2;
const worstFirst: readonly Verdict[] = ['bad', 'adjust', 'undecided', 'good', 'info'];
const rank = ({ verdict }: JudgedFinding): number => worstFirst.indexOf(verdict);

/** Findings of each group, in the order of the groups; empty groups are left out. */
export const byGroup = (
  findings: readonly JudgedFinding[],
): { readonly group: Group; readonly findings: readonly JudgedFinding[] }[] =>
  groupOrder
    .map((group) => ({ group, findings: findings.filter(({ quantity }) => quantityOf(quantity).group === group) }))
    .filter((one) => one.findings.length > 0);

export function glanceOf(findings: readonly JudgedFinding[]): Glance[] {
  return byGroup(findings).map(({ group, findings: all }) => {
    const sorted = all
      .map((finding, i) => ({ finding, i }))
      .sort((a, b) => rank(a.finding) - rank(b.finding) || a.i - b.i);
    const first = sorted.filter(
      ({ finding }, i) => sorted.findIndex((other) => other.finding.quantity === finding.quantity) === i,
    );
    const shown = first.slice(0, MOST_SHOWN).map(({ finding }) => finding);
    return {
      group,
      title: groupTitles[group],
      verdict: sorted[0].finding.verdict,
      shown,
      more: all.length - shown.length,
    };
  });
}
