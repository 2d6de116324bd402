/** The result of a job in one plain sentence. */
import { type Statement, say, sayAll, statement } from '../../../words/statement.ts';
import { type FigureRow, figureName, newest } from './figureRows.ts';

const SHOWN = 3;

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Names of figures as a clause, three at most; a comma in a name would look like one between two. */
function named(rows: readonly FigureRow[]): string {
  const names = rows.map((row) => lower(figureName(row)).replace(/, (.+)$/, ' ($1)'));
  const figures = names.slice(0, SHOWN).join(', ');
  return names.length <= SHOWN ? figures : say(statement('figures-and-more', { figures, more: names.length - SHOWN }));
}

const openCodes = { bad: 'figures-bad', adjust: 'figures-adjust', undecided: 'figures-undecided' } as const;

function judgedResult(judged: readonly FigureRow[]): Statement {
  const of = (verdict: string): FigureRow[] => judged.filter((row) => newest(row).verdict === verdict);
  const [good, count] = [of('good').length, judged.length];
  if (count === 0) return statement('result-no-verdict');
  if (good === count) return statement('result-all-good', { count });
  const open = (['bad', 'adjust', 'undecided'] as const)
    .filter((verdict) => of(verdict).length > 0)
    .map((verdict) => say(statement(openCodes[verdict], { figures: named(of(verdict)) })))
    .join('; ');
  return statement('result-open', { good, count, open });
}

/** @param rows every figure of the job that is to be answered for */
export function resultText(rows: readonly FigureRow[]): string {
  if (rows.length === 0) return say(statement('result-nothing'));
  const result = judgedResult(rows.filter((row) => newest(row).verdict !== 'info'));
  const after = rows.some((row) => row.after !== null);
  return sayAll(after ? [result] : [result, statement('result-received-only')]);
}
