/** Before it plays: the practice deck with open knobs, or an exercise. */
import type { PracticeSide } from '../../core/deck/practice/practiceSides.ts';
import type { StationName } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Select } from '../parts/Choice.tsx';
import { ExerciseResult } from './ExerciseResult.tsx';
import './practice.css';
import { chooseSide, closeExercise, exercise, side, startExercise, startPractice } from './practiceLive.ts';

export function PracticeStart({ jobId, station }: { jobId: string; station: StationName }) {
  const now = exercise.value;
  if (now?.isOver) return <ExerciseResult now={now} />;
  return (
    <details class="practice-live">
      <summary>
        <b>Practice deck, live</b>
      </summary>
      <div class="stack">
        <p class="soft small">{say(statement('practice-what'))}</p>
        <div class="buttons">
          <button
            type="button"
            class="button"
            onClick={() => {
              closeExercise();
              startPractice(jobId, station);
            }}
          >
            Play it live
          </button>
          <Select<PracticeSide>
            label="Practice record"
            value={side.value}
            onValue={chooseSide}
            options={[
              { value: 'tilt', label: 'bands for the tilt, 25 s' },
              { value: 'everything', label: 'bands for every fault, 90 s' },
            ]}
          />
        </div>
        <div class="buttons">
          <button type="button" class="button" onClick={() => startExercise('tilt', jobId, station)}>
            Exercise: find the tilt
          </button>
          <button type="button" class="button" onClick={() => startExercise('everything', jobId, station)}>
            Exercise: find every fault
          </button>
        </div>
      </div>
    </details>
  );
}
