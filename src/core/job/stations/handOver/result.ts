/** The result of a job in one plain sentence. */
import { quantityTitle } from '../../../words/quantities.ts';
import { type Statement, say, sayAll, statement } from '../../../words/statement.ts';
import type { Job } from '../../api.ts';
import { epochNow, epochsOf } from '../../epochs.ts';
import { epochWords } from '../../recordingWords.ts';
import { type FigureRow, figureRows, isOfResponse, newest } from './figureRows.ts';

const SHOWN = 3;

/** What a figure is of, without channel, side or span: "separation". */
function subject({ quantity }: FigureRow): string {
  const [of] = quantityTitle(isOfResponse(quantity) ? 'frequency-response' : quantity).split(', ');
  return of.charAt(0).toLowerCase() + of.slice(1);
}

/** What the figures are of as a clause, each once, three at most. */
export function named(rows: readonly FigureRow[]): string {
  const names = [...new Set(rows.map(subject))];
  const figures = names.slice(0, SHOWN).join(', ');
  return names.length <= SHOWN ? figures : say(statement('figures-and-more', { figures, more: names.length - SHOWN }));
}

const openCodes = { bad: 'figures-bad', adjust: 'figures-adjust', undecided: 'figures-undecided' } as const;

function judgedResult(judged: readonly FigureRow[]): Statement {
  const of = (verdict: string): FigureRow[] => judged.filter((row) => newest(row).verdict === verdict);
  const [good, count] = [of('good').length, judged.length];
  if (count === 0) return statement('result-no-verdict');
  if (good === count) return statement('result-all-good', { count });
  // what shows in several rows is named once, under the gravest of their verdicts
  const told = new Set<string>();
  const open: string[] = [];
  for (const verdict of ['bad', 'adjust', 'undecided'] as const) {
    const rows = of(verdict).filter((row) => !told.has(subject(row)));
    if (rows.length > 0) open.push(say(statement(openCodes[verdict], { figures: named(rows) })));
    for (const row of rows) told.add(subject(row));
  }
  return statement('result-open', { good, count, open: open.join('; ') });
}

/** @param rows every figure of the job that is to be answered for */
export function resultText(job: Job, rows: readonly FigureRow[] = figureRows(job)): string {
  if (rows.length === 0) return say(statement('result-nothing'));
  const judged = () => judgedResult(rows.filter((row) => newest(row).verdict !== 'info'));
  if (rows.some((row) => row.after !== null)) return say(judged());
  // what was heard as received says nothing of what was fitted since
  const epochs = epochsOf(job.fittings);
  if (epochs.length > 1) return say(statement('result-not-since', { since: epochWords(epochNow(epochs)) }));
  return sayAll([judged(), statement('result-received-only')]);
}
