/** Closing a station and going on to the next that is open; and the control that the next move asks for. */
import type { Job } from '../../core/job/api.ts';
import { nextOpen, type StationName } from '../../core/job/station.ts';
import { go, revealed, stationPath } from '../route.ts';
import { draftOf } from '../stationDraft.ts';

/** null where all others are done, and after Hand over: whoever closed it over open stations said why, and the reports come next */
export const nextAfter = (job: Job, station: StationName): StationName | null =>
  station === 'hand-over' ? null : nextOpen(station, (name) => draftOf(job.id, name).status.value === 'done');

/** what is left to do once Hand over is closed */
export const CUSTOMER_REPORT = 'customer-report';

export function closeAndGoOn(job: Job, station: StationName): void {
  const next = nextAfter(job, station);
  draftOf(job.id, station).change({}, 'done');
  if (next !== null) go(stationPath(job.id, next));
  else if (station === 'hand-over') document.getElementById(CUSTOMER_REPORT)?.focus();
}

/** Puts the focus into the first text field there that is still empty, folds around it opened. */
export function focusEmpty(selector: string): void {
  const fields = [...document.querySelectorAll<HTMLInputElement>(`${selector} input`)];
  const empty = fields.find(({ type, value }) => type === 'text' && value === '');
  if (empty === undefined) focusIn(selector);
  else {
    revealed(empty);
    empty.focus();
  }
}

/** Puts the focus into the first field of what is named, folds around it opened. */
export function focusIn(selector: string): void {
  const found = document.querySelector<HTMLElement>(selector);
  if (found === null) return;
  revealed(found);
  const control = found.matches('input, select')
    ? found
    : (found.querySelector<HTMLElement>('input, select') ?? found.querySelector<HTMLElement>('summary'));
  control?.focus();
}
