/** The customer's report: one printed page, whatever the job holds; what does not fit is counted and is in the technician's. */
import type { CaptureRecord, Job } from '../core/job/api.ts';
import { cartridgeOn } from '../core/job/cartridgeOn.ts';
import type { Letterhead } from '../core/job/letterhead.ts';
import { limitsOf } from '../core/job/shop.ts';
import { stationTitles } from '../core/job/station.ts';
import { dueText } from '../core/job/stations/handOver/due.ts';
import {
  type FigureRow,
  figureName,
  figureRows,
  headlineRows,
  missingHeadlines,
  newest,
} from '../core/job/stations/handOver/figureRows.ts';
import { named, resultText } from '../core/job/stations/handOver/result.ts';
import { openStations } from '../core/job/stations/handOver.ts';
import { typedOf } from '../core/job/stations/index.ts';
import { foundAtIntake } from '../core/job/stations/intake.ts';
import { figureLines } from '../core/words/figureLines.ts';
import { quantityTitle } from '../core/words/quantities.ts';
import { cameWords, reportTitles as titles } from '../core/words/report.ts';
import { say, sayAll, statement } from '../core/words/statement.ts';
import { Compared } from './compared.tsx';
import { FigureHead, FigureLine } from './figureTable.tsx';
import { clipped, type Fitted, fitted, roomBeside } from './onePage.ts';
import { documentText, type Made, Sheet, Time } from './sheet.tsx';
import { ShopHead } from './shopHead.tsx';
import { standingRecord } from './standing.ts';
import { withheldTogether } from './withheldTogether.ts';
import { type WorkLine, workDone } from './workDone.ts';

function Facts({ job }: { job: Job }) {
  const cartridge = cartridgeOn(job);
  return (
    <dl class="facts">
      <dt>{titles.deck}</dt>
      <dd>{clipped(job.deck.name, 45)}</dd>
      <dt>{titles.received}</dt>
      <dd>
        <Time at={job.createdAt} />
      </dd>
      <dt>{titles.cartridge}</dt>
      <dd>{cartridge === '' ? '–' : clipped(cartridge, 45)}</dd>
      <dt>{titles.owner}</dt>
      <dd>{job.customer === '' ? '–' : clipped(job.customer, 45)}</dd>
    </dl>
  );
}

/** What was found at intake, and what nobody looked at there: each at most one line and a half. */
function intakeTexts(job: Job): string[] {
  const { faults, notChecked } = foundAtIntake(typedOf(job).stations.intake);
  return [
    ...(faults === '' ? [] : [say(statement('intake-faults', { faults: clipped(faults, 160) }))]),
    ...(notChecked === '' ? [] : [say(statement('intake-not-checked', { what: notChecked }))]),
  ];
}

/** The work as sentences, each with the one figure that says most: measured again, and comparable. */
const workTexts = (lines: readonly WorkLine[]): string[] =>
  lines.map(({ text, came }) => {
    const told = came.find((one) => one.came !== null && one.came !== cameWords['cannot-tell']) ?? came[0];
    if (told === undefined) return text;
    const measured =
      told.measured === null ? titles.notRead : `${titles.measured.toLowerCase()} ${told.measured} ${told.came}`;
    return `${text} ${told.name}: ${titles.predicted.toLowerCase()} ${told.predicted}, ${measured}`;
  });

function List({ of: { shown, more } }: { of: Fitted }) {
  return (
    <ul>
      {shown.map((line) => (
        <li>{line}</li>
      ))}
      {more === 0 ? null : <li class="soft">{say(statement('more-in-technicians', { more }))}</li>}
    </ul>
  );
}

/** Figures named beside one reason: it is read to its end. */
const MOST_WITHHELD = 3;

/** Withheld figures with their reasons first, then what no band shows, stations that were left out. */
function notMeasured(job: Job, last: CaptureRecord | undefined, rows: readonly FigureRow[]): string[] {
  const withheld = (last?.document.problems ?? []).filter(({ code }) => code === 'withheld');
  const told = new Set(withheld.map(({ quantity }) => quantity));
  const missing = missingHeadlines(rows).filter((name) => !told.has(name));
  const notBefore = rows.some(({ before }) => before !== null) ? [] : job.notBefore;
  return [
    ...new Set([
      ...(notBefore.length === 0 ? [] : [say(statement('not-as-received'))]),
      ...(rows.length === 0 || missing.length === 0
        ? []
        : [
            say(
              statement('not-in-recording', {
                what: missing.map((name) => quantityTitle(name)).join('; '),
                count: missing.length,
              }),
            ),
          ]),
      ...withheldTogether(withheld, MOST_WITHHELD).map(({ message }) => message),
    ]),
  ];
}

/** What would decide the undecided ones, each sentence once with the figures that it is about. */
function decidingTexts(rows: readonly FigureRow[]): string[] {
  const names = new Map<string, FigureRow[]>();
  for (const row of rows) {
    const { decidedBy } = newest(row);
    if (decidedBy !== undefined) names.set(decidedBy, [...(names.get(decidedBy) ?? []), row]);
  }
  return [...names].map(([sentence, of]) => say(statement('undecided-of', { sentence, figures: named(of) })));
}

function Figures({
  job,
  rows,
  deciding,
  deckClass,
}: {
  job: Job;
  rows: readonly FigureRow[];
  deciding: Fitted;
  deckClass: string;
}) {
  return (
    <>
      <h2>{titles.figures}</h2>
      <table>
        <FigureHead />
        <tbody>
          {rows.map((row) => (
            <FigureLine row={row} />
          ))}
        </tbody>
      </table>
      <Compared job={job} />
      {deciding.shown.map((line) => (
        <p class="note">{line}</p>
      ))}
      <p class="note">
        {deciding.more === 0 ? '' : `${say(statement('more-in-technicians', { more: deciding.more }))} `}
        {say(statement('limits-are', { class: deckClass }))}
      </p>
    </>
  );
}

/** @param captures of the job in the order heard */
export function renderCustomerReport(
  job: Job,
  captures: readonly CaptureRecord[],
  letterhead: Letterhead,
  made: Made,
): string {
  const typed = typedOf(job);
  const rows = figureRows(job);
  const chosen = headlineRows(rows);
  const last = standingRecord(job, captures);
  const { deckClass } = limitsOf({ run: typed.stations.run, shop: job.shop });
  const open = openStations((name) => job.stations[name].status === 'done');
  const closedOver = (typed.stations['hand-over'].closedOver ?? '').trim();
  const cautions = [
    ...(job.practice ? [statement('practice-job')] : []),
    ...(open.length === 0
      ? []
      : [statement('not-final', { stations: open.map((name) => stationTitles[name].title).join(', ') })]),
    ...(open.length === 0 || closedOver === ''
      ? []
      : [statement('closed-over', { why: clipped(closedOver.replace(/\.$/, ''), 160) })]),
  ];
  const intake = fitted(intakeTexts(job), 4);
  const result = resultText(job, rows);
  const caution = sayAll(cautions);
  const room = roomBeside(chosen.map(hasTwoLines), result, caution) - intake.lines;
  const deciding = fitted(decidingTexts(chosen), Math.min(4, Math.floor(room / 4)));
  const why = notMeasured(job, last, rows);
  const forWork = Math.ceil((room - deciding.lines) / 2);
  // the newest work first where not all of it fits
  const work = fitted(workTexts([...workDone(job, typed)].reverse()), forWork);
  const reasons = fitted(why, room - deciding.lines - work.lines);
  return documentText(
    <Sheet title={`${job.title}: ${titles.report}`} made={made} kind="customer">
      <ShopHead job={job} letterhead={letterhead} title={titles.report} madeAt={made.madeAt} />
      <Facts job={job} />
      {intake.shown.map((line) => (
        <p class="note">{line}</p>
      ))}
      {caution === '' ? null : <p class="caution">{caution}</p>}
      <p class="result">{result}</p>
      {chosen.length === 0 ? null : <Figures job={job} rows={chosen} deciding={deciding} deckClass={deckClass} />}
      <h2>{titles.done}</h2>
      {work.shown.length === 0 ? <p>{say(statement('nothing-moved'))}</p> : <List of={work} />}
      {reasons.shown.length === 0 ? null : (
        <>
          <h2>{titles.notMeasured}</h2>
          <List of={reasons} />
        </>
      )}
      <p class="due">
        <strong>{titles.due}:</strong> {dueText(typed.stations['hand-over'])}
      </p>
      <div class="sign keep">
        <span>{titles.signature}</span>
        <span>{titles.date}</span>
      </div>
    </Sheet>,
  );
}

/** Letters of a figure's name on the one line that it has beside the figures. */
const NAME_LETTERS = 32;

const hasTwoLines = (row: FigureRow): boolean =>
  figureName(row).length > NAME_LETTERS ||
  [row.before, row.after].some((finding) => finding !== null && figureLines(finding)[1] !== null);
