/** What every station's page is given. */
import type { Job } from '../../core/job/api.ts';

export interface StationProps {
  readonly job: Job;
}
