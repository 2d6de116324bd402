/** The head of a report: whose it is, and of which job. */
import type { Job } from '../core/job/api.ts';
import type { Letterhead } from '../core/job/letterhead.ts';
import { reportTitles } from '../core/words/report.ts';
import { fill } from '../core/words/template.ts';
import { Time } from './sheet.tsx';

export interface ShopHeadProps {
  readonly job: Job;
  readonly letterhead: Letterhead;
  readonly title: string;
  readonly madeAt: string;
}

export function ShopHead({ job, letterhead: { name, address, logo }, title, madeAt }: ShopHeadProps) {
  return (
    <header class="head">
      <div class="shop">
        {logo === null ? null : <img src={logo} alt={name} />}
        <div>
          <strong>{name === '' ? 'Platterside' : name}</strong>
          {address === '' ? null : <div class="soft">{address}</div>}
        </div>
      </div>
      <div class="of">
        <h1>{title}</h1>
        <div class="soft">
          {fill('job', reportTitles.job, { number: job.number }, () => '')} · <Time at={madeAt} />
        </div>
      </div>
    </header>
  );
}
