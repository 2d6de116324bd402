/** Before it plays: the practice deck with open knobs, or an exercise. */
import type { PracticeSide } from '../../core/deck/practice/practiceSides.ts';
import type { StationName } from '../../core/job/station.ts';
import { Select } from '../parts/Choice.tsx';
import { ExerciseResult } from './ExerciseResult.tsx';
import './practice.css';
import { closeExercise, exercise, side, startExercise, startPractice } from './practiceLive.ts';

export function PracticeStart({ jobId, station }: { jobId: string; station: StationName }) {
  const now = exercise.value;
  if (now?.isOver) return <ExerciseResult now={now} />;
  return (
    <details class="practice-live">
      <summary>No deck at hand? Listen to the practice deck live</summary>
      <div class="stack">
        <p class="soft small">
          An invented deck plays an invented record in this browser, silently, and is listened to as a real one is. Turn
          its knobs and watch the figures; or let an exercise hide faults and find them. Nothing of it enters this job.
        </p>
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
            onValue={(value) => {
              side.value = value;
            }}
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
