/** Where the force stands: aimed at, on the dial, as weighed, and whether what was weighed still holds. */
import type { JudgedFinding } from '../../../advise/document.ts';
import type { ForceStart } from '../../../advise/weigh.ts';
import { statement } from '../../../words/statement.ts';
import type { Bench } from '../../fields/benchFacts.ts';
import { type Answer, none } from '../answer.ts';
import type { WeighTyped } from '../weigh.ts';
import { type Spread, type Stand, standOf, startOf, type Target, type Travel, targetOf, travelOf } from './balance.ts';
import { dialOf, findingsOf, type Weighed, weighedOf } from './gauge.ts';

const FLOATING: Spread = { value: 0, uncertainty: null };

export interface ForceStanding {
  readonly start: Answer<ForceStart>;
  readonly target: Target | null;
  readonly dialMn: number | null;
  readonly weighed: Answer<Weighed>;
  /** the reading was typed before something moved */
  readonly old: boolean;
  /** what was weighed, while it holds; and the force of it, mN */
  readonly now: Weighed | null;
  readonly nowMn: Spread | null;
  /** target, dial and gauge beside one another; null without one to compare */
  readonly findings: Answer<readonly JudgedFinding[]> | null;
  /** from floating to the target, and from what was weighed to it */
  readonly travel: Answer<Travel>;
  readonly rest: Answer<Travel> | null;
  /** where the counterweight stands */
  readonly stand: Answer<Stand>;
  /** the force that a pull is calculated for */
  readonly pullFor: { readonly mn: number; readonly from: 'weighed' | 'set' | 'target' } | null;
}

/** @param reasons for weighing again */
export function forceStanding(
  data: WeighTyped,
  { facts, match }: Pick<Bench, 'facts' | 'match'>,
  reasons: readonly string[],
): ForceStanding {
  const start = startOf(facts, data.temperature);
  const target = targetOf(data, start);
  const weighed = weighedOf(data, facts);
  const old = reasons.some((key) => !(data.readUnder ?? []).includes(key));
  const now = weighed.found && !old ? weighed.value : null;
  const nowMn = now === null ? null : { value: now.force.force.mn, uncertainty: now.force.uncertaintyMn };
  const last = data.sets?.at(-1);
  return {
    start,
    target,
    dialMn: dialOf(data),
    weighed,
    old,
    now,
    nowMn,
    findings: now === null || target === null ? null : findingsOf(data, facts, now, target),
    travel: target === null ? none(statement('no-force-to-set')) : travelOf(facts, FLOATING, target.mn),
    rest: nowMn === null || target === null ? null : travelOf(facts, nowMn, target.mn),
    stand: target === null ? none(statement('no-force-to-set')) : standOf(facts, match, data.floatsAt, target.mn),
    pullFor:
      nowMn !== null
        ? { mn: nowMn.value, from: 'weighed' }
        : last !== undefined && reasons.length === 0
          ? { mn: last.mn, from: 'set' }
          : target !== null
            ? { mn: target.mn, from: 'target' }
            : null,
  };
}
