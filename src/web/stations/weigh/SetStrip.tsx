/** The force as it was last left, and whether it still holds. */
import { forceWords } from './force.ts';
import { setWords } from './sheetLines.ts';
import type { ForceSet } from './weighData.ts';

export interface SetStripProps {
  readonly last: ForceSet | undefined;
  /** why it has to be weighed again, in sentences; empty where it holds */
  readonly because: readonly string[];
}

export function SetStrip({ last, because }: SetStripProps) {
  const stale = because.length > 0;
  if (last === undefined) return null;
  return (
    <div class="strip set-strip" role="status">
      <span class={`mark ${stale ? 'stale' : 'done'}`}>{stale ? '↻ weigh again' : '✓ set'}</span>
      <span>
        <b>Last left at {setWords(last)}</b>, aimed at {forceWords(last.targetMn)},{' '}
        <time dateTime={last.at}>{last.at.slice(0, 10)}</time>. {because.join(' ')}
      </span>
    </div>
  );
}
