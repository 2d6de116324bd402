/** Tilt: a recorded side in; angle, direction and forecast out; then the check. Or the same from a meter. */

import { say, statement } from '../../../core/words/statement.ts';
import './tilt.css';
import type { SideDocument } from '../../../core/advise/document.ts';
import { isTurn } from '../../../core/advise/turn.ts';
import type { Job } from '../../../core/job/api.ts';
import { harmonicLines } from '../../../core/job/harmonicLines.ts';
import { passesOf } from '../../../core/job/stations/tilt/passes.ts';
import { figureLines } from '../../../core/words/figureLines.ts';
import { LivePanel } from '../../live/LivePanel.tsx';
import { TiltGuide } from '../../live/TiltGuide.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { ShownNotice } from '../../recordings/ShownNotice.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { HarmonicsTable } from '../../side/HarmonicsTable.tsx';
import { playing, playPractice } from '../../side/PracticeDeck.tsx';
import { Problems } from '../../side/problems.tsx';
import { reading } from '../../side/reading.ts';
import { SideReader } from '../../side/SideReader.tsx';
import { SideTimeline } from '../../side/SideTimeline.tsx';
import { findingOf, pickedBand, shownButNot, shownSide, sideDocument, sideProblem } from '../../side/shownSide.ts';
import type { StationProps } from '../station.ts';
import { MeterForm } from './MeterForm.tsx';
import { PassesChart } from './PassesChart.tsx';
import { SeparationTable } from './SeparationTable.tsx';
import { SetByMirror } from './SetByMirror.tsx';
import { TurnCard } from './TurnCard.tsx';
import { TurnCheck } from './TurnCheck.tsx';

export default function TiltStation({ job }: StationProps) {
  const document = sideDocument.value;
  const stands = shownButNot.value === null;
  const tilt = findingOf(document, 'azimuth-error');
  const band = pickedBand.value;
  return (
    <>
      {sideProblem.value !== null && document === null && (
        <div class="notice bad" role="alert">
          <p>{sideProblem.value}</p>
        </div>
      )}
      {document !== null && <ShownNotice />}
      {document !== null && stands && tilt !== null && <TurnCard job={job} document={document} tilt={tilt} />}
      {document !== null && stands && tilt === null && (
        <section class="card">
          <p class="aim">{say(statement('no-tilt-given'))}</p>
          {document.problems
            .filter(({ code, quantity }) => code === 'withheld' && quantity === 'azimuth-error')
            .map((problem) => (
              <p key={problem.message}>{problem.message}</p>
            ))}
          <p class="soft">{say(statement('what-else-heard'))}</p>
        </section>
      )}
      <SideReader
        jobId={job.id}
        station="tilt"
        next={document === null || !stands || tilt === null || wasTurned(job)}
      />
      <LivePanel jobId={job.id} station="tilt">
        <TiltGuide />
      </LivePanel>
      {document === null ? <WhatToDo job={job} /> : <TurnCheck job={job} />}
      <SetByMirror jobId={job.id} />
      <div class="folds">
        {document !== null && (
          <>
            <Fold title="Separation, balance, polarity" answer={separationGist(document)}>
              <section class="card">
                <SeparationTable document={document} band={band} />
              </section>
            </Fold>
            <Fold title="Passes" answer={passesGist(job)}>
              <PassesChart job={job} document={document} />
            </Fold>
            <Fold title="Bands heard" answer={`${document.bands.length} found`}>
              <SideTimeline document={document} />
              <PickedFindings />
            </Fold>
            {document.problems.length > 0 && (
              <Fold
                title="Left out or odd"
                answer={document.problems.length === 1 ? 'one note' : `${document.problems.length} notes`}
              >
                <Problems problems={document.problems} />
              </Fold>
            )}
          </>
        )}
        <MeterForm job={job} />
      </div>
    </>
  );
}

/** The turn that the shown recording advised was made: the next pass is what is wanted. */
function wasTurned(job: Job): boolean {
  const { captureId } = shownSide.value ?? {};
  return job.advice.some(
    ({ captureId: of, advice, outcome }) => of === captureId && isTurn(advice) && outcome.did === 'done',
  );
}

function separationGist(document: SideDocument): string {
  const shown = ['separation-left-to-right', 'separation-right-to-left'].flatMap((quantity) => {
    const finding = findingOf(document, quantity);
    return finding === null ? [] : [figureLines(finding)[0]];
  });
  return shown.length === 0 ? 'no separation measured' : shown.join(' and ');
}

function passesGist(job: Job): string {
  const count = passesOf(job).length;
  return count === 1 ? 'one so far' : `${count} so far`;
}

function WhatToDo({ job }: { job: Job }) {
  return (
    <section class="card">
      <h3 class="strong">What to do</h3>
      <ol class="steps">
        <li>{say(statement('tilt-step-record'))}</li>
        <li>{say(statement('tilt-step-play'))}</li>
        <li>{say(statement('tilt-step-drop'))}</li>
        <li>{say(statement('tilt-step-turn'))}</li>
      </ol>
      {/* who has recorded this deck is not trying it out */}
      {job.captures.length === 0 && reading.value.phase !== 'reading' && playing.value === null && (
        <div class="trial">
          <p>
            <b>Just trying it out?</b> {say(statement('tilt-practice'))}
          </p>
          <button type="button" class="button" onClick={() => playPractice(job.id, 'tilt')}>
            Play a practice side
          </button>
        </div>
      )}
      <p class="soft">{say(statement('tilt-voltmeter'))}</p>
    </section>
  );
}

/** All findings that rest on the band picked on the time line. */
function PickedFindings() {
  const document = sideDocument.value;
  const band = pickedBand.value;
  if (document === null || band === null) return null;
  const found = document.findings.filter((finding) => finding.bands.includes(band));
  const { lines, note, rest } = harmonicLines(found);
  return (
    <section class="card" aria-label={`Figures read from band ${band + 1}`}>
      <h3>Read from band {band + 1}</h3>
      {found.length === 0 ? (
        <p>{say(statement('no-figure-from-band'))}</p>
      ) : (
        <>
          <FindingList findings={rest} rowOf={(finding) => ({ onEvidence: () => showEvidence(finding, document) })} />
          <HarmonicsTable
            lines={lines}
            note={note}
            bands={document.bands}
            onEvidence={(finding) => showEvidence(finding, document)}
          />
        </>
      )}
    </section>
  );
}
