/** A deck's history, stylus hours and what is due, as readable tables for a terminal. */
import type { DeckHistory } from '../core/job/deckHistory.ts';
import type { DueList } from '../core/job/dueList.ts';
import {
  driftText,
  dueStateWords,
  dueWhen,
  limitText,
  readingText,
  readingWords,
  stylusName,
} from '../core/job/historyWords.ts';
import type { StylusLedger } from '../core/job/stylusHours.ts';
import { quantityTitle } from '../core/words/quantities.ts';
import { columns } from './jobText.ts';
import { oneLine } from './usageWords.ts';

const day = (iso: string): string => iso.slice(0, 10);

export function deckHistoryText({ deck, jobs, older, figures }: DeckHistory): string {
  const head = `${oneLine(deck.name)}: ${jobs.length} ${jobs.length === 1 ? 'job' : 'jobs'}${older === 0 ? '' : `, ${older} older ones not gone through`}\n`;
  if (figures.length === 0) return `${head}Nothing was measured in them.\n`;
  const tables = figures.map((figure) => {
    const rows = figure.readings.map((reading) => [
      `job ${reading.job}`,
      day(reading.at),
      readingWords[reading.when],
      readingText(figure, reading),
      reading.verdict,
      driftText(figure, reading) ?? '',
      reading.cartridge,
    ]);
    const limit = limitText(figure);
    const name = `${quantityTitle(figure.quantity)}${figure.channel === undefined ? '' : ` (${figure.channel})`}`;
    return `\n${name}${limit === '' ? '' : `: ${limit}`}\n${columns([
      ['job', 'day', 'when', 'figure', 'verdict', 'since it left', 'cartridge'],
      ...rows,
    ])}\n`;
  });
  return head + tables.join('');
}

export function stylusLedgerText({ styli }: StylusLedger): string {
  if (styli.length === 0) return 'No job says anything of a stylus yet.\n';
  const rows = styli.map((stylus) => [
    stylusName(stylus),
    stylus.deck.name,
    stylus.fitted ? 'on the deck' : 'taken off',
    stylus.hours === null ? 'not known' : `${stylus.hours} h`,
    stylus.notes.map(({ job, at, hours }) => `${day(at)} job ${job}${hours === null ? '' : `: ${hours} h`}`).join('; '),
  ]);
  return `${columns([['stylus', 'deck', 'now', 'hours', 'noted'], ...rows])}\n`;
}

export function dueListText({ due }: DueList): string {
  if (due.length === 0) return 'No next check is set; Hand over sets one.\n';
  const rows = due.map((row) => [
    dueStateWords[row.state],
    row.expected ?? '',
    row.deck.name,
    row.owner,
    `job ${row.job.number}`,
    dueWhen(row),
  ]);
  return `${columns([['state', 'expected', 'deck', 'owner', 'job', 'next check'], ...rows])}\n`;
}
