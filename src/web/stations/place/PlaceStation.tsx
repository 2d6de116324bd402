/** Place: this arm and these records in; where the tip belongs, a sheet to set it by, and from a reading the move out. */
import './place.css';
import { heardOverhang } from '../../../core/job/stations/place/heardOverhang.ts';
import { standsAs } from '../../../core/job/stations/place/madeMoves.ts';
import { solved } from '../../../core/job/stations/place/solved.ts';
import type { ArmTyped, ReadTyped, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import type { PlaceTyped } from '../../../core/job/stations/place.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { Fold } from '../../parts/Fold.tsx';
import { MovesMade } from '../../parts/MovesMade.tsx';
import { useBench } from '../../useBench.ts';
import { useStation } from '../../useStation.ts';
import type { StationProps } from '../station.ts';
import { ArmForm } from './ArmForm.tsx';
import { FillIn, MoveCard } from './MoveCard.tsx';
import { PlaceFolds } from './PlaceFolds.tsx';
import { placeActs } from './placeActs.ts';
import { ReadingForm } from './ReadingForm.tsx';
import { SetTo } from './SetTo.tsx';
import { SoundCard } from './SoundCard.tsx';

function WhatToDo() {
  return (
    <section class="card">
      <h3 class="strong">What to do</h3>
      <ol class="steps">
        <li>{say(statement('place-step-measure'))}</li>
        <li>{say(statement('place-step-records'))}</li>
        <li>{say(statement('place-step-print'))}</li>
        <li>{say(statement('place-step-read'))}</li>
        <li>{say(statement('place-step-move'))}</li>
      </ol>
      <p class="soft">{say(statement('place-no-printer'))}</p>
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
  const fallbacks = {
    spindleToPivot: bench.behind('spindleToPivotMm'),
    effectiveLength: bench.behind('effectiveLengthMm'),
  };
  const answer = solved(data, {
    spindleToPivotMm: fallbacks.spindleToPivot?.value,
    effectiveLengthMm: fallbacks.effectiveLength?.value,
  });
  const acts = placeActs(job, station);
  const moves = data.moves ?? [];
  const place = answer.kind === 'place' ? answer.place : null;
  const made = <MovesMade moves={moves} now={place === null ? null : standsAs(place)} onTakenBack={acts.takenBack} />;
  const heard = heardOverhang(job, place, moves.at(-1)?.at ?? null);
  const sound = heard !== null && <SoundCard job={job} heard={heard} />;
  if (answer.kind !== 'place') {
    return (
      <>
        <section class="card" aria-label="Set the tip here" aria-live="polite">
          <p class={answer.missing ? 'aim' : 'aim wrong-line'}>{sentence(answer.why)}</p>
          <FillIn where=".place-arm .fields" />
        </section>
        <ArmForm typed={data.arm ?? {}} set={setArm} fallbacks={fallbacks} />
        <div class="folds">
          <Fold title="What to do">
            <WhatToDo />
          </Fold>
        </div>
        {sound}
        {made}
      </>
    );
  }
  const stands = answer.place.asItStands;
  const move = (
    <MoveCard
      job={job}
      place={answer.place}
      request={answer.request}
      reading={answer.reading}
      again={moves.length > 0}
      onMoved={(did) => acts.moved(answer, did)}
    />
  );
  const read = <ReadingForm place={answer.place} typed={data.read ?? {}} sheet={data.sheet ?? {}} set={setRead} />;
  return (
    <>
      {stands === null && <SetTo place={answer.place} known={data.arm?.known ?? 'spindle-to-pivot'} />}
      {sound}
      {sound === false || stands !== null ? move : null}
      {sound === false ? (
        read
      ) : (
        <Fold title="Read off the template" open={stands !== null}>
          {stands === null ? move : null}
          {read}
        </Fold>
      )}
      {made}
      <PlaceFolds
        place={answer.place}
        typed={data}
        fallbacks={fallbacks}
        setArm={setArm}
        setSheet={setSheet}
        onBaseMoved={() => acts.baseMoved(answer)}
      />
    </>
  );
}
