/** Every figure of a job: as received, now, what changed, what its uncertainty is made of, and its notes. Harmonics and spans apart. */
import type { JudgedFinding } from '../core/advise/document.ts';
import type { Limits } from '../core/advise/limits.ts';
import { harmonicLines } from '../core/job/harmonicLines.ts';
import { spanLines } from '../core/job/spanLines.ts';
import { type FigureRow, newest } from '../core/job/stations/handOver/figureRows.ts';
import { shownFigure } from '../core/words/figure.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { isKnown, say, statement } from '../core/words/statement.ts';
import { bandsText } from './bandsText.ts';
import { FigureHead, FigureLine } from './figureTable.tsx';
import { HarmonicsTable } from './harmonics.tsx';
import { limitText } from './limitsTable.tsx';
import { SpansTable } from './spans.tsx';

/** Sources of an uncertainty that are named; the others are a small part of it. */
const MOST_SOURCES = 3;
const LEAST_SHARE = 0.01;

/** "leak of the record 62 %, signal 20 %" */
const budgetText = ({ budget = [] }: JudgedFinding): string =>
  budget
    .slice(0, MOST_SOURCES)
    .filter(({ share }) => share >= LEAST_SHARE)
    .map(({ source, share }) => `${source} ${Math.round(100 * share)} %`)
    .join(', ');

function changeText({ change, changeUncertainty, unit, before, after }: FigureRow): string {
  if (before === null || after === null) return '';
  if (change !== null) {
    const text = shownFigure(change, unit, changeUncertainty, true);
    // between two readings: what the deck's own figures did lies within their intervals
    return after.low === undefined && before.low === undefined ? text : say(statement('change-of-readings', { text }));
  }
  return before.value === after.value ? 'as before' : 'changed';
}

/** What is said of a figure beside its value, one after the other. */
function notesOf(finding: JudgedFinding, limits: Limits): string[] {
  const budget = budgetText(finding);
  const made = budget === '' ? '' : `${titles.made}: ${budget}.`;
  const { bands, notes } = finding;
  const limit = limitText(finding.quantity, limits);
  const within = limit === '' ? '' : say(statement('within-limits-of', { limit }));
  const from = bands.length === 0 ? '' : say(statement('read-from-bands', { bands: bandsText(bands) }));
  // a document by another version has one whole note
  const noted = notes?.every(isKnown) ? notes.map(say) : [finding.note];
  return [within, finding.decidedBy ?? '', ...noted, from, made].filter((one) => one !== '');
}

/** Of rows of one figure that follow one another, each with what was not said under the ones above it. */
function newNotes(rows: readonly FigureRow[], limits: Limits): string[] {
  let of = '';
  let said = new Set<string>();
  return rows.map((row) => {
    const finding = newest(row);
    if (finding.quantity !== of) [of, said] = [finding.quantity, new Set()];
    const fresh = notesOf(finding, limits).filter((one) => !said.has(one));
    for (const one of fresh) said.add(one);
    return fresh.join(' ');
  });
}

/** Under a figure, over the whole width of the table. */
function Notes({ text }: { text: string }) {
  if (text === '') return null;
  return (
    <tr>
      <td class="note" colSpan={5}>
        {text}
      </td>
    </tr>
  );
}

export function ChangesTable({ rows, limits }: { rows: readonly FigureRow[]; limits: Limits }) {
  if (rows.length === 0) return null;
  const { lines, note, rest: others } = harmonicLines(rows.map(newest));
  const { spans, rest } = spanLines(others);
  const plain = rows.filter((row) => rest.includes(newest(row)));
  const notes = newNotes(plain, limits);
  return (
    <>
      <h2>{titles.figures}</h2>
      <div class="wide">
        <table class="changes">
          <caption>{say(statement('change-independent'))}</caption>
          <FigureHead
            between={
              <th scope="col" class="figure">
                {titles.change}
              </th>
            }
          />
          {plain.map((row, i) => (
            <tbody class="keep">
              <FigureLine row={row} between={<td class="figure">{changeText(row)}</td>} />
              <Notes text={notes[i]} />
            </tbody>
          ))}
        </table>
      </div>
      <SpansTable spans={spans} />
      <HarmonicsTable lines={lines} note={note} />
    </>
  );
}
