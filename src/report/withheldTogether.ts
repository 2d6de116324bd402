/** Figures that are withheld for one and the same reason, told in one sentence. */
import type { Problem } from '../core/capture/problem.ts';
import { quantityTitle } from '../core/words/quantities.ts';
import { isKnown, say, statement } from '../core/words/statement.ts';

/** The reason alone; null for what is no figure left out, and for what another version wrote. */
function reasonOf({ quantity, values }: Problem): string | null {
  const why = values?.why;
  if (quantity === undefined || why === null || typeof why !== 'object' || !isKnown(why)) return null;
  return say(why);
}

/** @param most names that are told; the others are counted */
function listed(names: readonly string[], most: number): string {
  if (names.length <= most) return names.join('; ');
  const figures = names.slice(0, most - 1).join('; ');
  return say(statement('figures-and-more', { figures, more: names.length - most + 1 }));
}

/** In their order; those with the reason of an earlier one are told with it. */
export function withheldTogether(problems: readonly Problem[], most = Number.POSITIVE_INFINITY): Problem[] {
  const groups = new Map<string, string[]>();
  for (const one of problems) {
    const why = reasonOf(one);
    if (why !== null) groups.set(why, [...(groups.get(why) ?? []), quantityTitle(one.quantity ?? '')]);
  }
  return problems.flatMap((one): Problem[] => {
    const why = reasonOf(one);
    const names = why === null ? undefined : groups.get(why);
    if (why === null || names === undefined || names.length === 1) return [one];
    if (names[0] !== quantityTitle(one.quantity ?? '')) return [];
    return [{ ...one, message: say(statement('withheld-several', { what: listed(names, most), why })) }];
  });
}
