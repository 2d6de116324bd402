/** Hand over: before against after, what was advised and done, what is still open, and the reports. */

import { say, sayAll, statement } from '../../../core/words/statement.ts';
import './handover.css';
import { type JudgedFinding, mainReason } from '../../../core/advise/document.ts';
import { countingAdvice } from '../../../core/job/adviceHistory.ts';
import type { BeforeAfter, Job } from '../../../core/job/api.ts';
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { ofWhatIsFitted, recordingsOf } from '../../../core/job/recordings.ts';
import { epochWords } from '../../../core/job/recordingWords.ts';
import { type StationName, stationTitles } from '../../../core/job/station.ts';
import { resultText } from '../../../core/job/stations/handOver/result.ts';
import { openStations } from '../../../core/job/stations/handOver.ts';
import { unitSign } from '../../../core/words/figure.ts';
import { decimalsAtBench, showFigure } from '../../../core/words/number.ts';
import { isSigned, quantityTitle, verdictWords } from '../../../core/words/quantities.ts';
import { ExportWithRecordings } from '../../jobs/ExportWithRecordings.tsx';
import { dayHere } from '../../localTime.ts';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { hasInterval, Interval } from '../../parts/Interval.tsx';
import { ScrollTable } from '../../parts/ScrollTable.tsx';
import { Photographs } from '../../photographs/Photographs.tsx';
import { stationPath } from '../../route.ts';
import { bandNumbers } from '../../side/bandWords.ts';
import { draftOf } from '../../stationDraft.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { ReportCard } from './ReportCard.tsx';
import { ShopForm } from './ShopForm.tsx';

export default function HandOverStation({ job }: StationProps) {
  const open = openStations((name) => draftOf(job.id, name).status.value === 'done');
  const closed = useStation(job.id, 'hand-over').status === 'done';
  return (
    <>
      <Open job={job} before={open} closed={closed} />
      <ReportCard job={job} summary={resultText(job)} next={closed || open.length === 0} />
      <div class="folds">
        <Fold title="Before and after" answer={comparedGist(job)}>
          <section class="card" aria-label="Before and after">
            <Compared job={job} />
          </section>
        </Fold>
        <Fold title="Advised, and what came of it" answer={advisedGist(job)}>
          <Advised job={job} />
        </Fold>
        <Photographs job={job} station="hand-over" />
        <ShopForm />
        {job.captures.length > 0 && <ExportWithRecordings job={job} />}
      </div>
    </>
  );
}

function comparedGist({ beforeAfter, notBefore }: Job): string {
  const [both, after] = [beforeAfter.length, notBefore.length];
  if (both + after === 0) return 'nothing to compare yet';
  if (both === 0) return `${after} figures, not measured before`;
  return after === 0 ? `${both} figures` : `${both} figures; ${after} not measured before`;
}

/** Of which recordings the two columns are, then the figures; what was not measured before is named. */
function Compared({ job }: { job: Job }) {
  const epochs = epochsOf(job.fittings);
  const after = ofWhatIsFitted(job).length;
  if (job.captures.length === 0) return <p>{say(statement('nothing-measured-yet'))}</p>;
  if (after === 0) return <p>{say(statement('fitted-not-measured'))}</p>;
  const { beforeAfter, notBefore } = job;
  const heard = (ids: readonly string[]) =>
    job.captures
      .filter(({ id }) => ids.includes(id))
      .map(({ file, heardAt }) => `${file}, ${dayHere(heardAt)}`)
      .join('; ');
  const [came, now] = [epochs[0].fitted.cartridge, epochNow(epochs)];
  return (
    <>
      {beforeAfter.length > 0 && (
        <>
          <p class="soft small">
            {sayAll([
              came === undefined
                ? statement('before-as-received', { heard: heard(beforeAfter.map((one) => one.beforeCapture)) })
                : statement('before-as-received-with', {
                    came,
                    heard: heard(beforeAfter.map((one) => one.beforeCapture)),
                  }),
              statement('after-is', {
                fitted: epochs.length === 1 ? '' : `${epochWords(now)}, `,
                heard: heard(beforeAfter.map((one) => one.afterCapture)),
              }),
            ])}
          </p>
          <BeforeAfterTable rows={beforeAfter} />
        </>
      )}
      {notBefore.length > 0 && (
        <details open={beforeAfter.length === 0}>
          <summary>Not measured before: {notBefore.length} figures</summary>
          <FindingList findings={notBefore.map((one) => one.after)} rowOf={() => ({ withNote: false })} />
        </details>
      )}
      {beforeAfter.length + notBefore.length === 0 && <p>{say(statement('before-after-appear'))}</p>}
    </>
  );
}

function advisedGist(job: Job): string {
  const given = answerable(job);
  return `${given.filter(({ outcome }) => outcome.did === 'done').length} of ${given.length} done`;
}

/** Advice to move something, of recordings that count. */
const answerable = (job: Job) => countingAdvice(job).filter(({ advice }) => !advice.action.startsWith('leave-'));

interface OpenProps {
  readonly job: Job;
  readonly before: readonly StationName[];
  /** over them, with a reason: the reports are the next move */
  readonly closed: boolean;
}

function Open({ job, before, closed }: OpenProps) {
  const stale = before.filter((name) => draftOf(job.id, name).status.value === 'stale');
  const others = before.filter((name) => !stale.includes(name));
  const [next] = before;
  if (next === undefined) return null;
  const links = (names: readonly StationName[]) =>
    names.map((name, i) => (
      <span key={name}>
        {i > 0 ? ', ' : ''}
        <a href={stationPath(job.id, name)}>{stationTitles[name].title}</a>
      </span>
    ));
  return (
    <div class="notice">
      {stale.length > 0 && (
        <p>
          <b>To check again before it goes:</b> {links(stale)}
        </p>
      )}
      {others.length > 0 && <p>Not done yet: {links(others)}</p>}
      {!closed && (
        <p>
          <a class="button main" href={stationPath(job.id, next)}>
            On to {stationTitles[next].title}
          </a>
        </p>
      )}
    </div>
  );
}

const cell = (finding: JudgedFinding) => (
  <>
    {hasInterval(finding) ? <Interval finding={finding} /> : read(finding)}
    {verdictWords[finding.verdict] !== '' && (
      <div class={`verdict ${finding.verdict}`}>{verdictWords[finding.verdict]}</div>
    )}
  </>
);

function read({ quantity, value, unit, uncertainty }: JudgedFinding) {
  if (typeof value === 'string') return <>{value.replace('-', ' ')}</>;
  const shown = showFigure(value, uncertainty, isSigned(quantity), decimalsAtBench(unit));
  return (
    <>
      {shown.value} <span class="pm">{shown.uncertainty === null ? '' : `± ${shown.uncertainty}`}</span>
    </>
  );
}

/** Which band, where the table holds the same figure of several. */
function whereOf(row: BeforeAfter, among: readonly BeforeAfter[]): string {
  const alike = among.filter((one) => one.quantity === row.quantity && one.channel === row.channel);
  return alike.length > 1 && row.after.bands.length > 0 ? `, ${bandNumbers(row.after.bands)}` : '';
}

function BeforeAfterTable({ rows }: { rows: readonly BeforeAfter[] }) {
  return (
    <ScrollTable name="Before and after" heads={[{ unseen: 'Figure' }, 'before', 'after', 'change']}>
      {rows.map((row) => (
        <tr key={`${row.quantity} ${row.channel} ${row.after.bands.join()}`}>
          <th scope="row">
            {quantityTitle(row.quantity)}
            {row.channel === undefined ? '' : `, ${row.channel}`}
            {whereOf(row, rows)}
            {unitSign(row.unit) === '' ? '' : `, ${unitSign(row.unit)}`}
          </th>
          <td>{cell(row.before)}</td>
          <td>{cell(row.after)}</td>
          <td>
            {row.change === null
              ? ''
              : showFigure(row.change, row.changeUncertainty, true, decimalsAtBench(row.unit)).value}
          </td>
        </tr>
      ))}
    </ScrollTable>
  );
}

const outcomeWords = { open: 'nothing said yet', done: 'done', 'not-done': 'left as it was' } as const;

function Advised({ job }: { job: Job }) {
  const recordings = recordingsOf(job);
  const given = answerable(job);
  const epochs = epochsOf(job.fittings);
  const heardIn = (captureId: string) => recordings.find(({ id }) => id === captureId)?.epoch ?? epochs[0];
  if (given.length === 0) return null;
  return (
    <section class="card" aria-label="Advice and what came of it">
      <h3 class="strong">Advised, and what came of it</h3>
      <ul class="findings">
        {given.map((entry) => {
          const came = entry.checks.filter((check) => check.came !== 'cannot-tell');
          const hit = came.filter((check) => check.came === 'as-predicted').length;
          return (
            <li class="finding" key={entry.id}>
              <span class="name">{mainReason(entry.advice)}</span>
              <span class="said">
                <span class="soft">
                  {epochs.length > 1 && `${epochWords(heardIn(entry.captureId))} · `}
                  {outcomeWords[entry.outcome.did]}
                  {entry.outcome.note === '' ? '' : `: ${entry.outcome.note}`}
                  {came.length === 0 ? '' : ` · ${hit} of ${came.length} figures as predicted`}
                </span>
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
