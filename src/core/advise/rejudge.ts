/**
 * Readings judged by other limits than those that held when they were read: a verdict changes where its limit did, everything
 * else stays as it was told.
 *
 * @checked rejudge.test.ts
 */
import type { JudgedFinding, SideDocument } from './document.ts';
import { DEFAULT_LIMITS, type Limits, limitsOn, verdictOn, whatDecides } from './limits.ts';
import type { NamedLimits } from './limitsFile.ts';

type JudgedBy = SideDocument['limits'];

/** @param judgedBy as the document tells it; absent: the defaults */
function rejudgedFinding(finding: JudgedFinding, judgedBy: JudgedBy, limits: Limits): JudgedFinding {
  const now = limitsOn(finding.quantity, limits);
  // limits that a document does not name were the defaults when it was written
  const before = limitsOn(finding.quantity, { ...DEFAULT_LIMITS, ...(judgedBy?.limits as Limits | undefined) });
  if (now.every(({ good, bad }, i) => before[i]?.good === good && before[i].bad === bad)) return finding;
  const { decidedBy: _said, decides: _, ...kept } = finding;
  const verdict = verdictOn(kept, limits);
  return { ...kept, verdict, ...(verdict === 'undecided' ? whatDecides(kept) : {}) };
}

/** A document, or the part of it that is listed, by the limits that now hold. */
export function rejudged<Part extends { readonly findings: readonly JudgedFinding[]; readonly limits?: JudgedBy }>(
  part: Part,
  { deckClass, limits }: NamedLimits,
): Part {
  const names = Object.keys(limits);
  const by = part.limits?.limits ?? DEFAULT_LIMITS;
  const same = names.every((name) => by[name]?.good === limits[name].good && by[name]?.bad === limits[name].bad);
  if (same) return part;
  return {
    ...part,
    findings: part.findings.map((finding) => rejudgedFinding(finding, part.limits, limits)),
    limits: { deckClass, limits },
  };
}
