/** Jobs as readable tables for a terminal. */
import type { AdviceEntry, Job, JobList, StationStatus } from '../core/job/api.ts';
import { ofWhatIsFitted, recordingsOf } from '../core/job/recordings.ts';
import { recordingKindWords, whyNotWords } from '../core/job/recordingWords.ts';
import { stationNames, stationTitles } from '../core/job/station.ts';
import { shownFigure } from '../core/words/figure.ts';
import { figureLines } from '../core/words/figureLines.ts';
import { quantityTitle } from '../core/words/quantities.ts';
import { findingsText } from './adviceText.ts';
import { oneLine } from './usageWords.ts';

const statusWords: Readonly<Record<StationStatus, string>> = {
  untouched: '–',
  now: 'begun',
  done: 'done',
  stale: 'check again',
};

// in the bench's own zone
const day = (iso: string): string => new Date(iso).toLocaleDateString('sv-SE');
const minute = (iso: string): string =>
  new Date(iso).toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });

/** Columns padded to their widest entry. */
export function columns(given: readonly (readonly string[])[]): string {
  const rows = given.map((row) => row.map(oneLine));
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  return rows
    .map((row) => `  ${row.map((cell, column) => cell.padEnd(widths[column])).join('  ')}`.trimEnd())
    .join('\n');
}

/** @param none what is said where the list is empty */
export function jobListText({ jobs, unreadable }: JobList, none = 'There are no jobs yet.'): string {
  const lost = unreadable
    .map(({ id, number, why }) => `  ${number ?? '?'}  cannot be read: ${why} (id ${id})\n`)
    .join('');
  if (jobs.length === 0) return lost === '' ? `${none}\n` : lost;
  const rows = jobs.map((job) => [
    String(job.number),
    job.title,
    job.deck.name,
    `${stationNames.filter((name) => job.stations[name] === 'done').length} of ${stationNames.length} done`,
    `${job.captures} recordings`,
    day(job.updatedAt),
    job.id,
    job.setAside === null ? '' : `set aside: ${job.setAside.why}`,
  ]);
  return `${columns([['no.', 'title', 'deck', 'stations', 'heard', 'changed', 'id', ''], ...rows])}\n${lost}`;
}

const didWords: Readonly<Record<AdviceEntry['outcome']['did'], string>> = {
  open: 'not noted whether done',
  done: 'done',
  'not-done': 'not done',
};

function adviceLines(entry: AdviceEntry): string {
  const checks = entry.checks.map((check) => {
    const measured =
      check.measured === null
        ? 'not measured'
        : `measured ${shownFigure(check.measured, check.unit, check.uncertainty)}`;
    return `    ${quantityTitle(check.quantity)}: predicted ${shownFigure(check.predicted, check.unit, null)}, ${measured}, ${check.came.replaceAll('-', ' ')}`;
  });
  return [`  ${entry.advice.why} (${didWords[entry.outcome.did]})`, ...checks].join('\n');
}

export function jobText(job: Job, colour: boolean): string {
  const stations = stationNames.flatMap((name) => {
    const { status, staleBecause = [] } = job.stations[name];
    return [[stationTitles[name].title, statusWords[status], staleBecause.at(-1) ?? '']];
  });
  const pairs = job.beforeAfter.map((pair) => [
    quantityTitle(pair.quantity) + (pair.channel === undefined ? '' : ` (${pair.channel})`),
    figureLines(pair.before)[0],
    figureLines(pair.after)[0],
    pair.after.verdict,
  ]);
  const recordings = recordingsOf(job);
  const last = ofWhatIsFitted(job).at(-1);
  const parts = [
    `${oneLine(job.title)}\n  deck: ${oneLine(job.deck.name)}${job.customer === '' ? '' : `\n  owner: ${oneLine(job.customer)}`}\n  id: ${job.id}`,
    `stations\n${columns(stations)}`,
    ...(job.captures.length === 0
      ? []
      : [
          `recordings\n${columns(
            job.captures.map((capture, place) => [
              minute(capture.heardAt),
              capture.file,
              stationTitles[capture.station].title,
              recordingKindWords[recordings[place].kind],
              whyNotWords(capture, recordings[place]),
              capture.id,
            ]),
          )}`,
        ]),
    ...(last === undefined ? [] : [`figures of ${oneLine(last.file)}\n${findingsText(last.findings, colour)}`]),
    ...(pairs.length === 0 ? [] : [`before and after\n${columns([['figure', 'before', 'after', 'now'], ...pairs])}`]),
    ...(job.advice.length === 0 ? [] : [`advice\n${job.advice.map(adviceLines).join('\n')}`]),
  ];
  return `${parts.join('\n\n')}\n`;
}
