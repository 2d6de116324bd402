/** The order of work, ticked as it is done, each caution at the step it belongs to. */
import { CHECK_LEADS, fitSteps } from '../../../core/advise/orderOfWork.ts';
import type { Job } from '../../../core/job/api.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { say } from '../../../core/words/statement.ts';
import { Check } from '../../parts/Choice.tsx';
import { stationPath } from '../../route.ts';

export interface WorkOrderProps {
  readonly job: Job;
  readonly data: FitTyped;
  set(patch: FitTyped): void;
}

/** Where the figures for a step stand. */
export const figuresAt: Readonly<Record<string, { readonly id: string; readonly text: string }>> = {
  screws: { id: 'screws', text: 'which length' },
  'leads-on': { id: 'leads', text: 'pins from behind' },
  [CHECK_LEADS]: { id: 'leads', text: 'check them' },
  'weigh-in': { id: 'hardware', text: 'what the hardware weighs' },
};

export function WorkOrder({ job, data, set }: WorkOrderProps) {
  const steps = data.steps ?? [];
  const tick = (id: string, on: boolean): void =>
    set({ steps: on ? [...steps, id] : steps.filter((one) => one !== id) });
  const done = fitSteps.filter((step) => steps.includes(step.id)).length;
  const next = fitSteps.find((step) => !steps.includes(step.id));
  return (
    <section class="card work-order" aria-label="Order of work">
      <h3>Order of work</h3>
      <p class="soft small" role="status">
        {done} of {fitSteps.length} done{next === undefined ? '' : `; next is number ${fitSteps.indexOf(next) + 1}`}
      </p>
      <ol>
        {fitSteps.map((step) => {
          const figures = figuresAt[step.id];
          return (
            <li key={step.id} class={step === next ? 'next' : undefined}>
              <Check label={say(step.does)} checked={steps.includes(step.id)} onChecked={(on) => tick(step.id, on)} />
              {step.caution !== undefined && (
                <p class="step-caution">
                  <b>Caution:</b> {say(step.caution)}
                </p>
              )}
              {figures !== undefined && (
                <p class="step-more small">
                  <a href={`#${figures.id}`}>{figures.text}</a>
                  {step.id === 'weigh-in' && (
                    <>
                      {' · '}
                      <a href={stationPath(job.id, 'weigh')}>to Weigh</a>
                    </>
                  )}
                </p>
              )}
            </li>
          );
        })}
      </ol>
      <p class="buttons">
        <button type="button" class="button plain" disabled={done === 0} onClick={() => set({ steps: [] })}>
          Begin the list again
        </button>
      </p>
    </section>
  );
}
