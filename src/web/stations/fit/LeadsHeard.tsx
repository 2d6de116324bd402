/** What the last recorded side says of the leads, and what that would mean on the pins. */

import type { Job } from '../../../core/job/api.ts';
import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { quantityTitle } from '../../../core/words/quantities.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { stationPath } from '../../route.ts';
import { heardAt } from './heardAt.ts';

export function LeadsHeard({ job }: { job: Job }) {
  const heard = (['polarity', 'channel-order'] as const).flatMap((quantity) => {
    const capture = [...ofWhatIsFitted(job)].reverse().find((one) => one.findings.some((f) => f.quantity === quantity));
    const finding = capture?.findings.find((one) => one.quantity === quantity);
    return finding === undefined ? [] : [finding];
  });
  if (heard.length === 0) {
    return (
      <p class="soft small">
        No recording of what is fitted tells polarity or channel order yet: play a lateral tone and one-sided bands and
        drop them at <a href={stationPath(job.id, 'tilt')}>Tilt</a>.
      </p>
    );
  }
  const suspicion = heard.some((one) => one.value === 'antiphase')
    ? say(statement('leads-reversed-somewhere'))
    : heard.some((one) => one.value === 'swapped')
      ? say(statement('leads-exchanged-somewhere'))
      : '';
  return (
    <div class={suspicion === '' ? 'last-heard' : 'notice last-heard'}>
      <p>
        <span class="soft">{say(statement('as-last-heard'))}</span>{' '}
        {heard.map((one, i) => (
          <span key={one.quantity}>
            {i > 0 && ', '}
            <a href={stationPath(job.id, heardAt(one.quantity))}>{quantityTitle(one.quantity).toLowerCase()}</a>{' '}
            {shownFigure(one.value, one.unit, one.uncertainty).replace('-', ' ')}
          </span>
        ))}
        . {suspicion}
      </p>
    </div>
  );
}
