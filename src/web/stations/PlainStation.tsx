/** A station without figures of its own yet: what it is for, and what can go wrong there. Its notes are in the frame. */
import type { StationName } from '../../core/job/station.ts';
import { purposeOf } from './purpose.ts';

export function PlainStation({ station }: { station: StationName }) {
  return (
    <section class="card">
      <p class="aim">{purposeOf(station).aim}</p>
      <p class="soft">
        Nothing is calculated here yet. Write what was done and read below; it is kept with the job and printed on its
        report.
      </p>
    </section>
  );
}
