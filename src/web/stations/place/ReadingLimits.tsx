/** How well it was read, and what the shell still allows: both have usual values while nothing is typed. */
import { usualReadingUncertainty } from '../../../core/geometry/readings.ts';
import { readFields } from '../../../core/job/stations/place/fields.ts';
import type { ReadTyped } from '../../../core/job/stations/place/typed.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { TypedFields } from '../../parts/TypedFields.tsx';

export interface ReadingLimitsProps {
  readonly typed: ReadTyped;
  set(patch: ReadTyped): void;
}

export function HowRead({ typed, set }: ReadingLimitsProps) {
  // a ruler is read less closely than a grid under a lens, and a maker's figures less than either
  const ruler = { value: usualReadingUncertainty.overhang, from: 'an eye with a steel ruler' };
  const fallbacks =
    typed.kind === 'stated'
      ? { withinMm: ruler, withinDeg: { value: 1, from: 'common practice' } }
      : typed.kind === 'ruler'
        ? { withinMm: ruler }
        : {};
  return (
    <details>
      <summary>How well it was read</summary>
      <div class="fields">
        <TypedFields
          of={readFields}
          names={['withinMm', 'withinDeg', 'withinPivot']}
          typed={typed}
          set={set}
          fallbacks={fallbacks}
        />
      </div>
      <p class="soft small">{say(statement('reading-limits'))}</p>
    </details>
  );
}

export function TheShell({ typed, set }: ReadingLimitsProps) {
  return (
    <details>
      <summary>What the headshell allows</summary>
      <div class="fields">
        <TypedFields
          of={readFields}
          names={['slotsForward', 'slotsBack', 'turnLeft', 'tipAhead', 'slotAngle']}
          typed={typed}
          set={set}
        />
      </div>
    </details>
  );
}
