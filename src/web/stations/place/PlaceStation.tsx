/** Place: this arm and these records in; where the tip belongs, a sheet to set it by, and from a reading the move out. */

import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { sentence } from '../../../core/words/statement.ts';
import './place.css';
import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { withMove } from '../../../core/job/moveRecord.ts';
import {
  type Did,
  placeMove,
  predictedAfter,
  slideWords,
  standsAs,
  twistWords,
} from '../../../core/job/stations/place/madeMoves.ts';
import { emptied } from '../../../core/job/stations/place/readRequest.ts';
import { type Solved, solved } from '../../../core/job/stations/place/solved.ts';
import type { ArmTyped, ReadTyped, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import type { PlaceTyped } from '../../../core/job/stations/place.ts';
import { showNumber } from '../../../core/words/number.ts';
import { makeMove, undoMove } from '../../jobState.ts';
import { Fold } from '../../parts/Fold.tsx';
import { useBench } from '../../useBench.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { ArmForm } from './ArmForm.tsx';
import { CriteriaCard } from './CriteriaCard.tsx';
import { CurvesCard } from './CurvesCard.tsx';
import { LimitsCard } from './LimitsCard.tsx';
import { MoveCard } from './MoveCard.tsx';
import { MovesMade } from './MovesMade.tsx';
import { PlanCard } from './PlanCard.tsx';
import { ReadingForm } from './ReadingForm.tsx';
import { SetTo } from './SetTo.tsx';
import { SheetCard } from './SheetCard.tsx';
import { SoundCard } from './SoundCard.tsx';
import { ToleranceCard } from './ToleranceCard.tsx';

type PlaceAnswer = Extract<Solved, { kind: 'place' }>;

function WhatToDo() {
  return (
    <section class="card">
      <h3 class="strong">What to do</h3>
      <ol class="steps">
        <li>Measure from the centre of the spindle to the centre of the arm’s pivot, and type it.</li>
        <li>Say which records are played, and what the arm is to be set for. If in doubt leave both as they are.</li>
        <li>Print the arc template, and lay a ruler on both of its 100 mm bars before you trust it.</li>
        <li>
          Read how far the tip misses a cross and how the cartridge is turned there. How far to slide and twist is
          beside it.
        </li>
        <li>Move the cartridge, say so, read again: the page tells whether it came as predicted.</li>
      </ol>
      <p class="soft">No printer? The overhang by ruler will do for the slide.</p>
    </section>
  );
}

export default function PlaceStation({ job }: StationProps) {
  const station = useStation<PlaceTyped>(job.id, 'place');
  const { data, set } = station;
  const setArm = (patch: ArmTyped): void => set({ arm: { ...data.arm, ...patch } });
  const setRead = (patch: ReadTyped): void => set({ read: { ...data.read, ...patch } });
  const setSheet = (patch: SheetTyped): void => set({ sheet: { ...data.sheet, ...patch } });
  const bench = useBench(job.id, 'place');
  const spindleToPivot = bench.behind('spindleToPivotMm');
  const effectiveLength = bench.behind('effectiveLengthMm');
  const answer = solved(data, {
    spindleToPivotMm: spindleToPivot?.value,
    effectiveLengthMm: effectiveLength?.value,
  });
  const moves = data.moves ?? [];

  const onMoved = ({ place, request }: PlaceAnswer, did: Did): void => {
    const [stands, before, foretold] = [place.asItStands, standsAs(place), predictedAfter(place, request, did)];
    if (stands === null || before === null || foretold === null) return;
    const slideMm = did.slide ? stands.slideMm.value : null;
    const twistDeg = did.twist && stands.twistDeg !== null ? stands.twistDeg.value : null;
    const at = new Date().toISOString();
    set({
      moves: withMove(
        moves,
        placeMove({ slideMm, twistDeg }, { at, before, foretold, reading: data.read ?? {} }),
        epochNow(epochsOf(job.fittings)).began,
      ),
      read: emptied(data.read ?? {}),
    });
    const step = { station: 'place', step: at } as const;
    if (slideMm !== null) makeMove(job.id, { move: 'slide', ...step, note: slideWords(slideMm), by: slideMm });
    if (twistDeg !== null) makeMove(job.id, { move: 'twist', ...step, note: twistWords(twistDeg), by: twistDeg });
  };
  const onTakenBack = (): void => {
    const last = moves.at(-1);
    if (last === undefined) return;
    set({ moves: moves.slice(0, -1), read: last.reading });
    undoMove(job.id, last.at);
  };

  const armForm = <ArmForm typed={data.arm ?? {}} set={setArm} fallbacks={{ spindleToPivot, effectiveLength }} />;
  const made = (
    <MovesMade moves={moves} now={answer.kind === 'place' ? standsAs(answer.place) : null} onTakenBack={onTakenBack} />
  );
  const fromSound = (
    <SoundCard job={job} place={answer.kind === 'place' ? answer.place : null} movedAt={moves.at(-1)?.at ?? null} />
  );
  if (answer.kind !== 'place') {
    return (
      <>
        <section class="card" aria-label="Set the tip here" aria-live="polite">
          <p class={answer.missing ? 'aim' : 'aim wrong-line'}>{sentence(answer.why)}</p>
        </section>
        {armForm}
        <div class="folds">
          <Fold title="What to do">
            <WhatToDo />
          </Fold>
        </div>
        {made}
        {fromSound}
      </>
    );
  }
  const { place, request, reading } = answer;
  const { low, high } = place.tolerance.peakDistortionPercent;
  const nulls = place.nullPointsMm.map((radius) => radius.toFixed(1)).join(' and ');
  const stands = place.asItStands !== null;
  const setTo = <SetTo place={place} known={data.arm?.known ?? 'spindle-to-pivot'} />;
  return (
    <>
      {!stands && setTo}
      <MoveCard
        place={place}
        request={request}
        reading={reading}
        again={moves.length > 0}
        onMoved={(did) => onMoved(answer, did)}
      />
      <ReadingForm place={place} typed={data.read ?? {}} sheet={data.sheet ?? {}} set={setRead} />
      {made}
      {fromSound}
      <div class="folds">
        {stands && (
          <Fold title="Where the tip belongs" answer={`overhang ${showNumber(place.overhangMm, 1)} mm`}>
            {setTo}
          </Fold>
        )}
        <Fold title="Arm and records" answer={armGist(place)}>
          <div class="do">
            {armForm}
            <div class="stack">
              <PlanCard place={place} />
              <LimitsCard place={place} />
            </div>
          </div>
        </Fold>
        <Fold title="Template to print" answer="arc or two-point">
          <SheetCard place={place} typed={data.sheet ?? {}} set={setSheet} />
        </Fold>
        <Fold title="Curves" answer={nulls === '' ? 'no null point' : `null points ${nulls} mm`}>
          <CurvesCard place={place} />
        </Fold>
        {place.criteria.length > 0 && (
          <Fold title="Other criteria" answer={`${place.criteria.length} compared`}>
            <CriteriaCard place={place} />
          </Fold>
        )}
        <Fold
          title="How closely to set it"
          answer={`peak second harmonic ${low.toFixed(1)} to ${high.toFixed(1)} %, set by hand`}
        >
          <ToleranceCard place={place} typed={data.arm ?? {}} set={setArm} />
        </Fold>
      </div>
    </>
  );
}

/** "226.5 mm, 60.3 to 146.1 mm": the arm and the grooves that the answer is for. */
function armGist({ spindleToPivotMm, groove }: PlaceDocument): string {
  const pivot = spindleToPivotMm === null ? 'tangential arm' : `spindle to pivot ${spindleToPivotMm.toFixed(1)} mm`;
  return `${pivot}, grooves from ${showNumber(groove.innerMm, 1)} to ${showNumber(groove.outerMm, 1)} mm`;
}
