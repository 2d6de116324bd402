/** Run: what the whole side tells about the deck. Only what the document holds is shown. */

import './run.css';
import type { Advice, JudgedFinding, SideDocument } from '../../../core/advise/document.ts';
import { isTurn } from '../../../core/advise/turn.ts';
import { type CurveGroup, groupCurves } from '../../../core/draw/chart/curves.ts';
import { moveOfAdvice } from '../../../core/job/adviceMoves.ts';
import type { Job } from '../../../core/job/api.ts';
import { harmonicLines } from '../../../core/job/harmonicLines.ts';
import { byGroup } from '../../../core/job/stations/run/glance.ts';
import type { Curve } from '../../../core/measure/finding.ts';
import { groupTitles } from '../../../core/words/quantities.ts';
import { say, sayAll, statement } from '../../../core/words/statement.ts';
import { EarthCheck } from '../../live/EarthCheck.tsx';
import { LiveFindings } from '../../live/LiveFindings.tsx';
import { LivePanel } from '../../live/LivePanel.tsx';
import { SpeedStripView } from '../../live/SpeedStripView.tsx';
import { Caution } from '../../parts/Caution.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { AdviceOutcome } from '../../parts/Outcome.tsx';
import { ShownNotice } from '../../recordings/ShownNotice.tsx';
import { stationPath } from '../../route.ts';
import { whereOf } from '../../side/bandWords.ts';
import { CurveChart } from '../../side/CurveChart.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { HarmonicsTable } from '../../side/HarmonicsTable.tsx';
import { Problems } from '../../side/problems.tsx';
import { SideReader } from '../../side/SideReader.tsx';
import { SideTimeline } from '../../side/SideTimeline.tsx';
import { entryOf, pickedBand, shownButNot, shownSide, sideDocument } from '../../side/shownSide.ts';
import { GoOn } from '../GoOn.tsx';
import type { StationProps } from '../station.ts';
import { BenchFold } from './BenchFold.tsx';
import { CapacitanceFold } from './CapacitanceFold.tsx';
import { ChainFold } from './ChainFold.tsx';
import { Glance } from './Glance.tsx';
import { HalfTurnFold } from './HalfTurnFold.tsx';
import { LimitsFold } from './LimitsFold.tsx';
import { RepeatsFold } from './RepeatsFold.tsx';
import { ResponsesFold } from './ResponsesFold.tsx';

/** curves worth a place of their own, when there */
const ownCurves = [
  'speed-deviation',
  'speed-against-turn',
  'speed-deviation-spectrum',
  'frequency-response',
  'channel-difference',
  'separation',
  'separation-phase',
  'resonance-lateral',
  'resonance-vertical',
] as const;

export default function RunStation({ job }: StationProps) {
  const document = sideDocument.value;
  const stands = shownButNot.value === null;
  return (
    <>
      {document !== null && (
        <>
          <ShownNotice />
          <Glance document={document} />
          {stands && <RunAdvice job={job} document={document} />}
          {stands &&
            !wasMoved(job) &&
            toAnswer(job, document) === undefined &&
            openTurn(job, document) === undefined && <GoOn job={job} station="run" />}
        </>
      )}
      <SideReader jobId={job.id} station="run" next={document === null || !stands || wasMoved(job)} />
      <LivePanel jobId={job.id} station="run">
        <LiveFindings />
        <SpeedStripView />
        <EarthCheck />
      </LivePanel>
      {document === null && (
        <section class="card">
          <p class="aim">{say(statement('run-play-side'))}</p>
          <p class="soft">{say(statement('run-figures-appear'))}</p>
        </section>
      )}
      <div class="folds">
        {document !== null && (
          <>
            <Fold title="Bands heard" answer={String(document.bands.length)}>
              <SideTimeline document={document} />
            </Fold>
            <Fold title="Curves of the side">
              <Curves document={document} />
            </Fold>
            <Fold title={`All ${document.findings.length} figures`}>
              <Groups document={document} />
            </Fold>
            <ChainFold job={job} />
            <HalfTurnFold job={job} document={document} shown={shownSide.value?.captureId ?? null} />
            <RepeatsFold job={job} record={document.record?.key ?? null} />
            <CapacitanceFold job={job} />
            <Problems problems={document.problems} />
          </>
        )}
        <LimitsFold jobId={job.id} />
        <BenchFold jobId={job.id} />
        <ResponsesFold jobId={job.id} />
      </div>
    </>
  );
}

/** What the shown recording advised was done: it is played again. */
const wasMoved = ({ advice }: Job): boolean =>
  advice.some(({ captureId, outcome }) => captureId === shownSide.value?.captureId && outcome.did === 'done');

/** What Run answers for: a turn belongs to Tilt, and what is left as it is asks for nothing. */
const advisedHere = ({ advice }: SideDocument): readonly Advice[] =>
  advice.filter((one) => !isTurn(one) && !one.action.startsWith('leave-'));

/** The first advice that somebody still has to say something of. */
const toAnswer = (job: Job, document: SideDocument): Advice | undefined =>
  advisedHere(document).find((one) => {
    const entry = entryOf(job, one);
    return entry?.outcome.did === 'open' && moveOfAdvice(one, entry.id) !== null;
  });

/** A turn that was advised and not answered: it is made at Tilt, before anything else is moved. */
const openTurn = (job: Job, document: SideDocument): Advice | undefined =>
  document.advice.find((one) => isTurn(one) && entryOf(job, one)?.outcome.did === 'open');

function RunAdvice({ job, document }: { job: Job; document: SideDocument }) {
  const advice = advisedHere(document);
  const turn = openTurn(job, document);
  if (advice.length === 0 && turn === undefined) return null;
  return (
    <section class="card" aria-label="What to do">
      {turn === undefined ? (
        <h3>What to do</h3>
      ) : (
        <div class="buttons">
          <a class="button main" href={stationPath(job.id, 'tilt')}>
            Tilt first
          </a>
        </div>
      )}
      {advice.map((one) => (
        <div key={`${one.action} ${one.why}`}>
          <Advised advice={one} />
          <AdviceOutcome
            jobId={job.id}
            entry={entryOf(job, one)}
            main={turn === undefined && one === toAnswer(job, document)}
          />
        </div>
      ))}
    </section>
  );
}

function Advised({ advice: { why, reasons = [], caution } }: { advice: Advice }) {
  const [first, ...rest] = reasons;
  if (first === undefined || (rest.length === 0 && caution === undefined)) return <p class="aim">{why}</p>;
  return (
    <details>
      <summary>{say(first)}</summary>
      {rest.length > 0 && <p>{sayAll(rest)}</p>}
      {caution !== undefined && <Caution>{caution}</Caution>}
    </details>
  );
}

function Curves({ document }: { document: SideDocument }) {
  // the longest of a kind is enough here; the others open with their figures
  const groups: CurveGroup<Curve>[] = ownCurves.flatMap((quantity) =>
    groupCurves(document.curves.filter((curve: Curve) => curve.quantity === quantity))
      .sort((a, b) => b.curves[0].x.length - a.curves[0].x.length)
      .slice(0, 1),
  );
  if (groups.length === 0) return null;
  return (
    <div class={groups.length > 1 ? 'do' : 'stack'}>
      {groups.map((group) => (
        <div class="card" key={group.quantity}>
          <CurveChart group={group} bands={document.bands} findings={document.findings} />
        </div>
      ))}
    </div>
  );
}

function Groups({ document }: { document: SideDocument }) {
  const band = pickedBand.value;
  return (
    <div class="groups">
      {byGroup(document.findings).map(({ group, findings }) => (
        <section class="card" key={group}>
          <h3 class="strong">{groupTitles[group]}</h3>
          <GroupFindings findings={findings} document={document} band={band} />
        </section>
      ))}
    </div>
  );
}

function GroupFindings({
  findings,
  document,
  band,
}: {
  findings: readonly JudgedFinding[];
  document: SideDocument;
  band: number | null;
}) {
  const { lines, note, rest } = harmonicLines(findings);
  const open = (finding: JudgedFinding) => showEvidence(finding, document);
  return (
    <>
      <HarmonicsTable lines={lines} note={note} bands={document.bands} picked={band} onEvidence={open} />
      <FindingList
        findings={rest}
        rowOf={(finding) => ({
          where: whereOf(finding, findings),
          picked: band === null ? undefined : finding.bands.includes(band),
          onEvidence: () => open(finding),
        })}
      />
    </>
  );
}
