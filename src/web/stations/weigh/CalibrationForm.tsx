/** Known masses laid on the gauge: how far it reads high or low, corrected from then on. */

import { useState } from 'preact/hooks';
import { calibrationOf } from '../../../core/job/stations/weigh/gauge.ts';
import { emptyMass, massFields } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { FieldRows } from '../../parts/FieldRows.tsx';
import { Figure } from '../../parts/Figure.tsx';

export function CalibrationForm({ data, set }: { data: WeighTyped; set(patch: WeighTyped): void }) {
  const rows = data.masses ?? [];
  const shown = rows.length === 0 ? [emptyMass] : rows;
  const [open, setOpen] = useState(rows.length > 0);
  const answer = calibrationOf(rows, data.gauge ?? {});
  return (
    <details class="fold calibration" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>The gauge against known masses</h3> {answer === null && <span class="soft">not done</span>}
      </summary>
      <p class="soft small">{say(statement('masses-how'))}</p>
      <FieldRows
        name="Known masses and what the gauge showed"
        of={massFields}
        names={['mass', 'within', 'reading']}
        rows={shown}
        setRows={(masses) => set({ masses })}
      />
      <button type="button" class="button" onClick={() => set({ masses: [...shown, emptyMass] })}>
        Another mass
      </button>
      <div aria-live="polite">
        {answer !== null && !answer.found && (
          <p class={answer.missing ? 'soft' : 'wrong-line'}>{sentence(answer.why)}</p>
        )}
        {answer?.found && (
          <>
            <Figure
              size="mid"
              value={answer.value.readsHighPercent.value}
              unit="%"
              uncertainty={answer.value.readsHighPercent.uncertainty}
              signed
            />
            <p>
              {say(
                statement(answer.value.readsHighPercent.value < 0 ? 'gauge-reads-low' : 'gauge-reads-high', {
                  factor: answer.value.calibration.factor,
                }),
              )}
            </p>
          </>
        )}
      </div>
    </details>
  );
}
