/** Run: what the whole side tells about the deck. Only what the document holds is shown. */

import type { JudgedFinding, SideDocument } from '../../../core/advise/document.ts';
import { isTurn } from '../../../core/advise/turn.ts';
import type { CurveGroup } from '../../../core/draw/chart/curves.ts';
import { harmonicLines } from '../../../core/job/harmonicLines.ts';
import { headline, saidOf } from '../../../core/job/stations/run/headline.ts';
import type { Curve } from '../../../core/measure/finding.ts';
import { type Group, groupTitles, isSigned, quantityOf, quantityTitle } from '../../../core/words/quantities.ts';
import { LivePanel } from '../../live/LivePanel.tsx';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { ShownNotice } from '../../recordings/ShownNotice.tsx';
import { whereOf } from '../../side/bandWords.ts';
import { CurveChart } from '../../side/CurveChart.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { HarmonicsTable } from '../../side/HarmonicsTable.tsx';
import { Problems } from '../../side/problems.tsx';
import { SideReader } from '../../side/SideReader.tsx';
import { SideTimeline } from '../../side/SideTimeline.tsx';
import { findingOf, pickedBand, shownButNot, sideDocument } from '../../side/shownSide.ts';
import type { StationProps } from '../station.ts';

const groupOrder: readonly Group[] = [
  'speed',
  'channels',
  'resonance',
  'geometry',
  'response',
  'distortion',
  'noise',
  'other',
];
/** curves worth a place of their own, when there */
const ownCurves = ['speed-deviation', 'frequency-response'] as const;

export default function RunStation({ job }: StationProps) {
  const document = sideDocument.value;
  return (
    <>
      <SideReader jobId={job.id} station="run" />
      <LivePanel jobId={job.id} station="run" />
      {document === null ? (
        <section class="card">
          <p class="aim">Play the whole test side and drop its recording here.</p>
          <p class="soft">
            Speed, wow and flutter, and whatever else the record’s bands can tell, appear here, each with its
            uncertainty.
          </p>
        </section>
      ) : (
        <>
          <ShownNotice />
          <SideTimeline document={document} />
          <Problems problems={document.problems} />
          <Headline document={document} />
          {shownButNot.value === null && <RunAdvice document={document} />}
          <Curves document={document} />
          <Groups document={document} />
        </>
      )}
    </>
  );
}

function Headline({ document }: { document: SideDocument }) {
  const found = headline.flatMap((quantity) => findingOf(document, quantity) ?? []);
  if (found.length === 0) return null;
  return (
    <div class="headline">
      {found.map((finding) => {
        return (
          <section class="card" key={finding.quantity}>
            <h3>
              <button
                type="button"
                class="evidence-button"
                aria-haspopup="dialog"
                onClick={() => showEvidence(finding, document)}
              >
                {quantityTitle(finding.quantity)}
              </button>
            </h3>
            <Figure
              size="mid"
              value={finding.value}
              unit={finding.unit}
              uncertainty={finding.uncertainty}
              signed={isSigned(finding.quantity)}
            />
            <p class={`verdict ${finding.verdict}`}>{saidOf(finding)}</p>
          </section>
        );
      })}
    </div>
  );
}

function RunAdvice({ document }: { document: SideDocument }) {
  const advice = document.advice.filter((one) => !isTurn(one) && one.action !== 'leave-tilt');
  if (advice.length === 0) return null;
  return (
    <section class="card" aria-label="What to do about it">
      <h3>What to do about it</h3>
      {advice.map((one) => (
        <div key={`${one.action} ${one.why}`} class="stack">
          <p class="aim">{one.why}</p>
          {one.caution !== undefined && <Caution>{one.caution}</Caution>}
        </div>
      ))}
    </section>
  );
}

function Curves({ document }: { document: SideDocument }) {
  const groups: CurveGroup<Curve>[] = ownCurves.flatMap((quantity) => {
    const curves = document.curves.filter((curve: Curve) => curve.quantity === quantity && curve.x.length > 1);
    const bands = [...new Set(curves.map((curve) => curve.band ?? null))];
    // the longest stretch stands for the side; the others open with their figures
    const longest = bands
      .map((band) => ({ quantity, band, curves: curves.filter((curve) => (curve.band ?? null) === band) }))
      .sort((a, b) => b.curves[0].x.length - a.curves[0].x.length);
    return longest.slice(0, 1);
  });
  if (groups.length === 0) return null;
  return (
    <div class={groups.length > 1 ? 'do' : 'stack'}>
      {groups.map((group) => (
        <div class="card" key={group.quantity}>
          <CurveChart group={group} bands={document.bands} />
        </div>
      ))}
    </div>
  );
}

function Groups({ document }: { document: SideDocument }) {
  const band = pickedBand.value;
  const filled = groupOrder
    .map((group) => ({
      group,
      findings: document.findings.filter((finding) => quantityOf(finding.quantity).group === group),
    }))
    .filter(({ findings }) => findings.length > 0);
  if (filled.length === 0) {
    return (
      <section class="card">
        <p>No figure could be read from this recording; the reasons are above.</p>
      </section>
    );
  }
  return (
    <div class="groups">
      {filled.map(({ group, findings }) => (
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
