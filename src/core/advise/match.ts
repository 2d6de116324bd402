/** Match: will cartridge, arm, counterweight and preamp go together. */
import type { Problem } from '../capture/problem.ts';
import type { Curve } from '../measure/finding.ts';
import type { Advice, JudgedFinding } from './document.ts';
import { matchBalance } from './matchBalance.ts';
import { matchHelp } from './matchHelp.ts';
import { checkMatchInput, type MatchInput } from './matchInput.ts';
import { matchLevels } from './matchLevels.ts';
import { matchLoading } from './matchLoading.ts';
import { matchResonance } from './matchResonance.ts';
import { matchSkating } from './matchSkating.ts';

/** What `match --json` prints and the Match station shows. */
export interface MatchDocument {
  readonly schema: 1;
  readonly findings: readonly JudgedFinding[];
  readonly advice: readonly Advice[];
  readonly problems: readonly Problem[];
  readonly curves: readonly Curve[];
}

/**
 * @throws RangeError naming the figure, its value and its bounds
 * @checked src/core/advise/match.test.ts
 */
export function matchDocument(input: MatchInput): MatchDocument {
  checkMatchInput(input);
  const answers = [matchResonance, matchBalance, matchLoading, matchLevels, matchSkating].map((ask) => ask(input));
  const findings = answers.flatMap((answer) => answer.findings);
  return {
    schema: 1,
    findings,
    advice: [...answers.flatMap((answer) => answer.advice), ...matchHelp(findings, input)],
    problems: answers.flatMap((answer) => answer.problems),
    curves: answers.flatMap((answer) => answer.curves),
  };
}
