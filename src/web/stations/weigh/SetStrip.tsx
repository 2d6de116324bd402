/** The force as it was last left, and whether it still holds. */

import { forceWords } from '../../../core/job/fields/force.ts';
import { setWords } from '../../../core/job/stations/weigh/reportLines.ts';
import type { ForceSet } from '../../../core/job/stations/weigh/weighData.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { dayHere } from '../../localTime.ts';

export interface SetStripProps {
  readonly last: ForceSet | undefined;
  /** it has to be weighed again */
  readonly stale: boolean;
  /** what was moved at this station, which the frame above does not tell */
  readonly movedHere: string | null;
  onUndo(): void;
}

export function SetStrip({ last, stale, movedHere, onUndo }: SetStripProps) {
  if (last === undefined) return null;
  return (
    <div class="strip set-strip" role="status">
      <span class={`mark ${stale ? 'stale' : 'done'}`}>{stale ? '↻ weigh again' : '✓ set'}</span>
      <span>
        <time dateTime={last.at}>
          {say(
            statement('force-last-left', {
              force: setWords(last),
              target: forceWords(last.targetMn),
              day: dayHere(last.at),
            }),
          )}
        </time>{' '}
        {stale ? (movedHere ?? say(statement('moved-since'))) : ''}
      </span>
      <button type="button" class="button plain" aria-label="Undo setting the force" onClick={onUndo}>
        Undo
      </button>
    </div>
  );
}
