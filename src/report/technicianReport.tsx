/** The technician's report: everything a job holds, set close; the newest recording with its evidence. */
import type { SideDocument } from '../core/advise/document.ts';
import { API_SCHEMA, type CaptureRecord, type Job } from '../core/job/api.ts';
import { cartridgeOn } from '../core/job/cartridgeOn.ts';
import type { Letterhead } from '../core/job/letterhead.ts';
import type { PhotographInFile } from '../core/job/photographs.ts';
import { recordingsOf } from '../core/job/recordings.ts';
import { limitsOf } from '../core/job/shop.ts';
import { type StationName, stationNames, stationTitles } from '../core/job/station.ts';
import { dueText } from '../core/job/stations/handOver/due.ts';
import { figureRows } from '../core/job/stations/handOver/figureRows.ts';
import { resultText } from '../core/job/stations/handOver/result.ts';
import { linesOf, typedOf } from '../core/job/stations/index.ts';
import type { ChosenLimits } from '../core/job/stations/run/limits.ts';
import type { JobTyped } from '../core/job/stations/stationModel.ts';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { statusWords, reportTitles as titles } from '../core/words/report.ts';
import { say, sayAll, statement } from '../core/words/statement.ts';
import { BandsTable, CaptureFacts, Problems } from './captureParts.tsx';
import { ChangesTable } from './changesTable.tsx';
import { Charts } from './chart.tsx';
import { Compared } from './compared.tsx';
import { LimitsTable } from './limitsTable.tsx';
import { Photographs } from './photographs.tsx';
import { RecordingsTable } from './recordingsTable.tsx';
import { documentText, type Made, Sheet, Time } from './sheet.tsx';
import { ShopHead } from './shopHead.tsx';
import { standingRecord } from './standing.ts';
import { WorkTable } from './workTable.tsx';

function StillOpen({ job }: { job: Job }) {
  const open = stationNames.filter((name) => name !== 'hand-over' && job.stations[name].status !== 'done');
  if (open.length === 0) return null;
  return (
    <div class="caution">
      <p>
        <strong>
          {say(statement('not-final', { stations: open.map((name) => stationTitles[name].title).join(', ') }))}
        </strong>
      </p>
      {open.flatMap((name) =>
        (job.stations[name].staleBecause ?? []).map((because) => (
          <p>
            {stationTitles[name].title}: {because}
          </p>
        )),
      )}
    </div>
  );
}

function Paragraphs({ text }: { text: string }) {
  const lines = text.split(/\n+/).filter((line) => line.trim() !== '');
  return (
    <>
      {lines.map((line) => (
        <p>{line}</p>
      ))}
    </>
  );
}

function Station({ name, job, typed }: { name: StationName; job: Job; typed: JobTyped }) {
  const lines = linesOf(name, typed);
  return (
    <section>
      <h3>
        {stationTitles[name].title} <span class="soft">· {statusWords[job.stations[name].status]}</span>
      </h3>
      {lines.length === 0 ? null : (
        <dl>
          {lines.map((line) => (
            <>
              <dt>{line.label}</dt>
              <dd>
                {line.text}
                {line.at === undefined ? null : (
                  <>
                    , <Time at={line.at} />
                  </>
                )}
              </dd>
            </>
          ))}
        </dl>
      )}
      <Paragraphs text={typed.stations[name].notes ?? ''} />
    </section>
  );
}

function Evidence({ last, limits }: { last: CaptureRecord; limits: ChosenLimits }) {
  const { document } = last;
  return (
    <>
      <h2>{titles.recording}</h2>
      <CaptureFacts document={document} heard={last.heardAt} />
      <p class="note">{recordFileText(document)}</p>
      <BandsTable bands={document.bands} />
      {document.curves.length === 0 ? null : (
        <>
          <h2>{titles.curves}</h2>
          <Charts curves={document.curves} />
        </>
      )}
      <LimitsTable of={limits} />
      <Problems problems={document.problems} />
    </>
  );
}

const recordFileText = ({ record }: SideDocument): string =>
  say(record === undefined ? statement('record-file-none') : statement('record-file-is', { ...record }));

/** @param captures of the job in the order heard */
export function renderTechnicianReport(
  job: Job,
  captures: readonly CaptureRecord[],
  letterhead: Letterhead,
  photographs: readonly PhotographInFile[],
  made: Made,
): string {
  const typed = typedOf(job);
  const rows = figureRows(job);
  const cartridge = cartridgeOn(job);
  const last = standingRecord(job, captures);
  const limits = limitsOf({ run: typed.stations.run, shop: job.shop });
  return documentText(
    <Sheet title={`${job.title}: ${titles.technicianReport}`} made={made} kind="technician">
      <ShopHead job={job} letterhead={letterhead} title={titles.technicianReport} madeAt={made.madeAt} />
      <p>
        <strong>{job.title}</strong>
      </p>
      <dl class="facts">
        <dt>{titles.deck}</dt>
        <dd>
          {job.deck.name}
          {job.deck.description === '' ? '' : `: ${job.deck.description}`}
        </dd>
        <dt>{titles.cartridge}</dt>
        <dd>{cartridge === '' ? '–' : cartridge}</dd>
        <dt>{titles.owner}</dt>
        <dd>{job.customer === '' ? '–' : job.customer}</dd>
        <dt>{titles.received}</dt>
        <dd>
          <Time at={job.createdAt} />
        </dd>
        <dt>{titles.changed}</dt>
        <dd>
          <Time at={job.updatedAt} />
        </dd>
      </dl>
      {job.practice ? <p class="caution">{say(statement('practice-job'))}</p> : null}
      <Paragraphs text={job.notes} />
      <StillOpen job={job} />
      <p class="result">{resultText(job, rows)}</p>
      <p>
        {titles.due}: {dueText(typed.stations['hand-over'])}
      </p>
      <ChangesTable rows={rows} limits={limits.limits} />
      <Compared job={job} />
      <WorkTable job={job} typed={typed} />
      <h2>{titles.conditions}</h2>
      <div class="two">
        {stationNames.map((name) => (
          <Station name={name} job={job} typed={typed} />
        ))}
      </div>
      <Photographs of={photographs} />
      <RecordingsTable job={job} recordings={recordingsOf(job)} />
      {last === undefined ? null : <Evidence last={last} limits={limits} />}
      <h2>{titles.methods}</h2>
      <p>
        {sayAll([statement('methods-are', { version: made.version, methods: METHOD_VERSION, schema: API_SCHEMA })])}
      </p>
    </Sheet>,
  );
}
