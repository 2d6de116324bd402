/** The step of the work that is next, large, with its caution and the button that goes on to the one after it. */
import { fitSteps } from '../../../core/advise/orderOfWork.ts';
import type { Job } from '../../../core/job/api.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { GoOn } from '../GoOn.tsx';
import { figuresAt } from './WorkOrder.tsx';

export interface NextStepProps {
  readonly job: Job;
  readonly done: boolean;
  readonly data: FitTyped;
  set(patch: FitTyped): void;
}

export const stepsDone = ({ steps = [] }: FitTyped): number => fitSteps.filter(({ id }) => steps.includes(id)).length;

export function NextStep({ job, done, data, set }: NextStepProps) {
  const steps = data.steps ?? [];
  const next = fitSteps.find(({ id }) => !steps.includes(id));
  const last = fitSteps.findLast(({ id }) => steps.includes(id));
  const undo = last !== undefined && (
    <button
      type="button"
      class="button plain"
      aria-label="Undo the last step"
      onClick={() => set({ steps: steps.filter((id) => id !== last.id) })}
    >
      Undo
    </button>
  );
  if (next === undefined) {
    return (
      <section class="card" aria-label="Next step" aria-live="polite">
        <p class="turn">
          {say(statement('all-steps-done', { all: fitSteps.length }))} {undo}
        </p>
        {!done && <GoOn job={job} station="fit" />}
      </section>
    );
  }
  if (done) {
    return (
      <section class="card" aria-label="Next step">
        <p>
          {say(statement('closed-with-steps', { ticked: stepsDone(data), all: fitSteps.length }))} {undo}
        </p>
      </section>
    );
  }
  const figures = figuresAt[next.id];
  return (
    <section class="card" aria-label="Next step" aria-live="polite">
      <h3>
        Step {fitSteps.indexOf(next) + 1} of {fitSteps.length}
      </h3>
      {next.caution !== undefined && <Caution>{say(next.caution)}</Caution>}
      <p class="turn">{say(next.does)}</p>
      <div class="buttons">
        <button type="button" class="button main" onClick={() => set({ steps: [...steps, next.id] })}>
          Done: next step
        </button>
        {figures !== undefined && (
          <a class="button" href={`#${figures.id}`}>
            Open: {figures.text}
          </a>
        )}
        {undo}
      </div>
    </section>
  );
}
