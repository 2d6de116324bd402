/** Place: this arm and these records in; where the tip belongs, a sheet to set it by, and from a reading the move out. */
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import './place.css';
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
import { makeMove, undoMove } from '../../jobState.ts';
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

const parts = [
  { id: 'place-sheet', name: 'the template' },
  { id: 'place-reading', name: 'your reading and the move' },
  { id: 'place-curves', name: 'curves' },
  { id: 'place-criteria', name: 'criteria' },
  { id: 'place-tolerance', name: 'how closely to set it' },
] as const;

/** A long station: the way to its parts. */
function Ways() {
  return (
    <nav class="ways small" aria-label="Parts of this station">
      <span class="soft">Go to</span>
      {parts.map(({ id, name }) => (
        <a key={id} href={`#${id}`}>
          {name}
        </a>
      ))}
    </nav>
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

  return (
    <>
      {answer.kind === 'place' ? (
        <div>
          <SetTo place={answer.place} known={data.arm?.known ?? 'spindle-to-pivot'} />
          <Ways />
        </div>
      ) : (
        <section class="card" aria-label="Set the tip here" aria-live="polite">
          <p class={answer.missing ? 'aim' : 'aim wrong-line'}>{answer.why}</p>
          <p class="soft">Overhang, offset and null points appear here as soon as the arm is known.</p>
        </section>
      )}
      <div class="do">
        <ArmForm typed={data.arm ?? {}} set={setArm} fallbacks={{ spindleToPivot, effectiveLength }} />
        {answer.kind === 'place' ? (
          <div class="stack">
            <PlanCard place={answer.place} />
            <LimitsCard place={answer.place} />
          </div>
        ) : (
          <WhatToDo />
        )}
      </div>
      {answer.kind === 'place' && (
        <>
          <SheetCard place={answer.place} typed={data.sheet ?? {}} set={setSheet} />
          <div class="do" id="place-reading">
            <ReadingForm place={answer.place} typed={data.read ?? {}} sheet={data.sheet ?? {}} set={setRead} />
            <MoveCard
              place={answer.place}
              request={answer.request}
              reading={answer.reading}
              again={moves.length > 0}
              onMoved={(did) => onMoved(answer, did)}
            />
          </div>
        </>
      )}
      <MovesMade
        moves={moves}
        now={answer.kind === 'place' ? standsAs(answer.place) : null}
        onTakenBack={onTakenBack}
      />
      {answer.kind === 'place' && (
        <>
          <CurvesCard place={answer.place} />
          <CriteriaCard place={answer.place} />
          <ToleranceCard place={answer.place} typed={data.arm ?? {}} set={setArm} />
        </>
      )}
    </>
  );
}
