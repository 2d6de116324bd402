/** A job as a report for its customer, or for the next technician. */
import type { CaptureRecord, Job } from '../core/job/api.ts';
import type { Audience } from '../core/job/audience.ts';
import type { Letterhead } from '../core/job/letterhead.ts';
import type { PhotographInFile } from '../core/job/photographs.ts';
import { renderCustomerReport } from './customerReport.tsx';
import type { Made } from './sheet.tsx';
import { renderTechnicianReport } from './technicianReport.tsx';

export interface ReportWhom {
  readonly audience: Audience;
  readonly letterhead: Letterhead;
  /** with their pixels; only the technician's report shows them */
  readonly photographs?: readonly PhotographInFile[];
}

/**
 * A self-contained HTML document: one printed page for the customer, everything for the technician.
 *
 * @param captures of the job in the order heard
 */
export function renderJobReport(
  job: Job,
  captures: readonly CaptureRecord[],
  { audience, letterhead, photographs = [], made }: ReportWhom & { readonly made: Made },
): string {
  return audience === 'customer'
    ? renderCustomerReport(job, captures, letterhead, made)
    : renderTechnicianReport(job, captures, letterhead, photographs, made);
}
