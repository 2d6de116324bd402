/** A station without figures of its own yet: what it is for, and what can go wrong there. Its notes are in the frame. */
import type { StationName } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
import { purposeOf } from './purpose.ts';

export function PlainStation({ station }: { station: StationName }) {
  return (
    <section class="card">
      <p class="aim">{purposeOf(station).aim}</p>
      <p class="soft">{say(statement('plain-station'))}</p>
    </section>
  );
}
