/** A job as a report for its customer, or for the next technician. */
import type { CaptureRecord, Job } from '../core/job/api.ts';
import type { Audience } from '../core/job/audience.ts';
import type { Letterhead } from '../core/job/letterhead.ts';
import { renderCustomerReport } from './customerReport.tsx';
import type { Made } from './sheet.tsx';
import { renderTechnicianReport } from './technicianReport.tsx';

/**
 * A self-contained HTML document: one printed page for the customer, everything for the technician.
 *
 * @param captures of the job in the order heard
 */
export function renderJobReport(
  job: Job,
  captures: readonly CaptureRecord[],
  { audience, letterhead, made }: { readonly audience: Audience; readonly letterhead: Letterhead; readonly made: Made },
): string {
  const render = audience === 'customer' ? renderCustomerReport : renderTechnicianReport;
  return render(job, captures, letterhead, made);
}
