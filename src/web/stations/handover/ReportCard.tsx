/** The two reports, and when the deck is due again. */
import { apiPaths, type Job } from '../../../core/job/api.ts';
import { dueDateField, type HandOverTyped, handOverFields } from '../../../core/job/stations/handOver.ts';
import { reportTitles } from '../../../core/words/report.ts';
import { DayEntry } from '../../parts/DayEntry.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { useStation } from '../../useStation.ts';
import { CUSTOMER_REPORT } from '../leadOn.ts';

export interface ReportCardProps {
  readonly job: Job;
  /** of the job, in a few words */
  readonly summary: string;
  /** the customer's report is the next move: no station is open, or Hand over was closed over them */
  readonly next: boolean;
}

export function ReportCard({ job, summary, next }: ReportCardProps) {
  const { data, set } = useStation<HandOverTyped>(job.id, 'hand-over');
  return (
    <section class="card stack" aria-label={reportTitles.report}>
      <p class="turn">{summary}</p>
      <div class="buttons">
        <a
          id={CUSTOMER_REPORT}
          class={next ? 'button main' : 'button'}
          href={apiPaths.report(job.id, 'customer')}
          target="_blank"
          rel="noopener"
        >
          Open the customer’s report
        </a>
        <a class="button" href={apiPaths.report(job.id, 'technician')} target="_blank" rel="noopener">
          Open the technician’s report
        </a>
        <a class="button" href={apiPaths.bundle(job.id, true)} download={`job-${job.number}.platterside.zip`}>
          Export the job
        </a>
      </div>
      <div class="fields">
        <TypedFields of={handOverFields} names={['dueHours']} typed={data} set={set} />
        <DayEntry field={dueDateField} day={data.dueDate} onDay={(dueDate) => set({ dueDate })} />
      </div>
    </section>
  );
}
