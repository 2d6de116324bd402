/** Run: what of a side stands large, and what is said beside it. */
import type { JudgedFinding } from '../../../advise/document.ts';
import { verdictWords } from '../../../words/quantities.ts';

/** Quantities that stand large, in this order. */
export const headline = ['speed-error', 'wow-flutter-weighted-deck', 'once-per-turn'] as const;

/** The verdict; of a speed that is surely off also which way. */
export function saidOf(finding: JudgedFinding): string {
  const verdict = verdictWords[finding.verdict] ?? '';
  if (finding.quantity !== 'speed-error' || typeof finding.value !== 'number') return verdict;
  const sure = Math.abs(finding.value) > (finding.uncertainty ?? 0);
  return [verdict, sure ? (finding.value > 0 ? 'runs fast' : 'runs slow') : '']
    .filter((part) => part !== '')
    .join(' · ');
}
