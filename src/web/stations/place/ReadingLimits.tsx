/** How well it was read, and what the shell still allows: both have usual values while nothing is typed. */
import { usualReadingUncertainty } from '../../../core/geometry/readings.ts';
import { readFields } from '../../../core/job/stations/place/fields.ts';
import type { ReadTyped } from '../../../core/job/stations/place/typed.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Fold } from '../../parts/Fold.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';

export interface ReadingLimitsProps {
  readonly typed: ReadTyped;
  set(patch: ReadTyped): void;
}

const howRead = ['withinMm', 'withinDeg', 'withinPivot'] as const;
const theShell = ['slotsForward', 'slotsBack', 'turnLeft', 'tipAhead', 'slotAngle'] as const;

type Name = (typeof howRead | typeof theShell)[number];

/** How many of these a person typed. */
function typedWords(typed: ReadTyped, names: readonly Name[]): string | undefined {
  const count = names.filter((name) => (typed[name] ?? '').trim() !== '').length;
  return count === 0 ? undefined : `${count} typed`;
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
    <Fold title="How well it was read" answer={typedWords(typed, howRead)}>
      <div class="fields">
        <TypedFields of={readFields} names={howRead} typed={typed} set={set} fallbacks={fallbacks} />
      </div>
      <p class="soft small">{say(statement('reading-limits'))}</p>
    </Fold>
  );
}

export function TheShell({ typed, set }: ReadingLimitsProps) {
  return (
    <Fold title="What the headshell allows" answer={typedWords(typed, theShell)}>
      <div class="fields">
        <TypedFields of={readFields} names={theShell} typed={typed} set={set} />
      </div>
    </Fold>
  );
}
