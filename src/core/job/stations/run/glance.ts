/** Run at a glance: of every group of figures its verdict and what tells most; the rest is for whoever opens it. */
import type { JudgedFinding, Verdict } from '../../../advise/document.ts';
import { DEFAULT_LIMITS, limitsOn } from '../../../advise/limits.ts';
import { type Group, groupTitles, quantityOf } from '../../../words/quantities.ts';

export interface Glance {
  readonly group: Group;
  readonly title: string;
  /** the worst of the whole group */
  readonly verdict: Verdict;
  /** one of each quantity, the worst first; of several bands or channels the worst one */
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

/** A figure over a stated span tells the same as the whole: one of them is enough here. */
const whole = ({ quantity }: JudgedFinding): string => quantity.replace(/-\d+-\d+$/, '');

/** How bad a figure is beside others of its quantity: by its limit's sense, else by its size where it is a share. */
function badness({ quantity, value, unit }: JudgedFinding): number {
  if (typeof value !== 'number') return 0;
  const [limit] = limitsOn(quantity, DEFAULT_LIMITS);
  if (limit !== undefined) return limit.sense === 'below' ? Math.abs(value) : -value;
  return unit === '%' ? Math.abs(value) : 0;
}

/** Levels that no limit judges are no verdict: they are found among all figures. */
const isTold = ({ group, findings }: { readonly group: Group; readonly findings: readonly JudgedFinding[] }): boolean =>
  group !== 'chain' || findings.some(({ verdict }) => verdict !== 'info');

/** Findings of each group, in the order of the groups; empty groups are left out. */
export const byGroup = (
  findings: readonly JudgedFinding[],
): { readonly group: Group; readonly findings: readonly JudgedFinding[] }[] =>
  groupOrder
    .map((group) => ({ group, findings: findings.filter(({ quantity }) => quantityOf(quantity).group === group) }))
    .filter((one) => one.findings.length > 0);

export function glanceOf(findings: readonly JudgedFinding[]): Glance[] {
  return byGroup(findings)
    .filter(isTold)
    .map(({ group, findings: all }) => {
      const sorted = [...all].sort((a, b) => rank(a) - rank(b));
      const told = sorted.filter((finding, i) => sorted.findIndex((other) => whole(other) === whole(finding)) === i);
      // without a verdict one figure tells enough
      const most = sorted[0].verdict === 'info' ? 1 : MOST_SHOWN;
      const shown = told.slice(0, most).map(({ quantity }) => {
        const alike = sorted.filter((one) => one.quantity === quantity);
        return alike.reduce((worst, one) => (rank(one) === rank(worst) && badness(one) > badness(worst) ? one : worst));
      });
      return {
        group,
        title: groupTitles[group],
        verdict: sorted[0].verdict,
        shown,
        more: all.length - shown.length,
      };
    });
}
