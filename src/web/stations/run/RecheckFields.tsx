/** How much a move may change at another station before that is checked again. */
import type { RecheckTolerances } from '../../../core/advise/recheck.ts';
import { type LimitsTyped, recheckField, recheckQuantities } from '../../../core/job/stations/run/limits.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { FieldEntry } from '../../parts/FieldEntry.tsx';

interface RecheckFieldsProps {
  /** what holds where nothing is typed */
  readonly under: RecheckTolerances;
  readonly typed: NonNullable<LimitsTyped['recheck']>;
  onTyped(typed: NonNullable<LimitsTyped['recheck']>): void;
}

export function RecheckFields({ under, typed, onTyped }: RecheckFieldsProps) {
  return (
    <fieldset>
      <legend>A change elsewhere is checked again beyond</legend>
      <p class="soft small">{say(statement('recheck-is'))}</p>
      <div class="fields">
        {recheckQuantities.map((quantity) => (
          <FieldEntry
            key={quantity}
            field={recheckField(quantity)}
            text={typed[quantity]}
            fallback={{ value: Number(under[quantity].most.toFixed(6)), from: under[quantity].source }}
            onText={(text) => onTyped({ ...typed, [quantity]: text })}
          />
        ))}
      </div>
    </fieldset>
  );
}
