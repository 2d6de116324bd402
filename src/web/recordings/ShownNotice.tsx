/** Over figures that say nothing of what is on the deck now: why not, and the way back to those that do. */
import { ofWhatIsFitted } from '../../core/job/recordings.ts';
import { say, statement } from '../../core/words/statement.ts';
import { job } from '../jobState.ts';
import { showCapture, shownButNot } from '../side/shownSide.ts';

export function ShownNotice() {
  const why = shownButNot.value;
  const open = job.value;
  if (why === null || open === null) return null;
  const last = ofWhatIsFitted(open).at(-1);
  return (
    <div class="notice" role="status">
      <p>
        <b>{say(statement('figures-do-not-count'))}</b> {say(why)}
      </p>
      {last !== undefined && (
        <p>
          <button type="button" class="button" onClick={() => void showCapture(open.id, last.id)}>
            Back to {last.file}, the last that counts
          </button>
        </p>
      )}
    </div>
  );
}
