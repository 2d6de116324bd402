/** What is wrong with a capture, and what could not be given, in sentences. */
import type { Problem } from '../../core/capture/problem.ts';
import { shownProblems } from '../../core/capture/shownProblems.ts';
import { showTime } from '../../core/words/number.ts';
import { type Statement, say, statement } from '../../core/words/statement.ts';
import { Fold } from '../parts/Fold.tsx';

const kinds = { error: 'Wrong:', warning: 'Mind:', note: 'Note:' } as const;

function place(problem: Problem): string {
  if (problem.startS === undefined) return '';
  const start = showTime(problem.startS, 1);
  const end = problem.endS === undefined ? start : showTime(problem.endS, 1);
  return start === end ? ` (at ${start})` : ` (at ${start} to ${end})`;
}

const moreLikeIt = (more: number, lastS: number | null): Statement =>
  lastS === null ? statement('more-alike', { more }) : statement('more-alike-to', { more, until: showTime(lastS, 1) });

export function Problems({ problems }: { problems: readonly Problem[] }) {
  const shown = problems.filter((problem) => problem.code !== 'withheld');
  const withheld = problems.filter((problem) => problem.code === 'withheld');
  if (problems.length === 0) return null;
  return (
    <div class="stack">
      {shown.length > 0 && (
        <div class={shown.some((p) => p.severity === 'error') ? 'notice bad' : 'notice'}>
          {shownProblems(shown).map(({ problem, more, lastS }) => (
            <p key={`${problem.code} ${problem.startS} ${problem.message}`}>
              <b>{kinds[problem.severity]}</b> {problem.message}
              {place(problem)}
              {more > 0 && ` ${say(moreLikeIt(more, lastS))}`}
            </p>
          ))}
        </div>
      )}
      {withheld.length > 0 && (
        <Fold title="Left out" answer={say(statement('figures-and-why', { count: withheld.length }))}>
          <ul>
            {withheld.map((problem) => (
              <li key={problem.message}>{problem.message}</li>
            ))}
          </ul>
        </Fold>
      )}
    </div>
  );
}
