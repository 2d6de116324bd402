/** Over figures that say nothing of what is on the deck now: why not. */
import { say, statement } from '../../core/words/statement.ts';
import { shownButNot } from '../side/shownSide.ts';

export function ShownNotice() {
  const why = shownButNot.value;
  if (why === null) return null;
  return (
    <div class="notice" role="status">
      <p>
        <b>{say(statement('figures-do-not-count'))}</b> {say(why)}
      </p>
    </div>
  );
}
