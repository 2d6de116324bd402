/** Known masses laid on the gauge: how far it reads high or low, corrected from then on. */

import { useState } from 'preact/hooks';
import { readQuantity } from '../../../core/job/fields/quantity.ts';
import { calibrationOf } from '../../../core/job/stations/weigh/gauge.ts';
import { emptyMass, type MassRow, massFields } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { Figure } from '../../parts/Figure.tsx';

const columns: readonly (keyof MassRow)[] = ['mass', 'within', 'reading'];

export function CalibrationForm({ data, set }: { data: WeighTyped; set(patch: WeighTyped): void }) {
  const rows = data.masses ?? [];
  const shown = rows.length === 0 ? [emptyMass] : rows;
  const [open, setOpen] = useState(rows.length > 0);
  const answer = calibrationOf(rows, data.gauge ?? {});
  const change = (place: number, key: keyof MassRow, text: string): void =>
    set({ masses: shown.map((row, i) => (i === place ? { ...row, [key]: text } : row)) });
  return (
    <details class="calibration" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>The gauge against known masses{answer === null ? ': not done' : ''}</summary>
      <p class="soft small">{say(statement('masses-how'))}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard */}
      <section class="meter-rows scroll-x" tabIndex={0} aria-label="Known masses and what the gauge showed">
        <table>
          <thead>
            <tr>
              {columns.map((key) => (
                <th scope="col" key={key}>
                  {massFields[key].label}, g
                </th>
              ))}
              <th scope="col">
                <span class="unseen">Take away</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row, i) => (
              <tr key={i}>
                {columns.map((key) => (
                  <td key={key}>
                    <input
                      type="text"
                      inputMode="decimal"
                      autoComplete="off"
                      aria-label={`${massFields[key].label}, g, row ${i + 1}`}
                      aria-invalid={'wrong' in readQuantity(row[key], massFields[key])}
                      value={row[key]}
                      maxLength={60}
                      onInput={(event) => change(i, key, event.currentTarget.value)}
                    />
                  </td>
                ))}
                <td>
                  <button
                    type="button"
                    class="button"
                    aria-label={`Take row ${i + 1} away`}
                    onClick={() => set({ masses: shown.filter((_, other) => other !== i) })}
                  >
                    ×
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
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
              The gauge reads {answer.value.readsHighPercent.value < 0 ? 'low' : 'high'} by that much: every reading is
              multiplied by {answer.value.calibration.factor.toFixed(4)} from here on.
            </p>
          </>
        )}
      </div>
    </details>
  );
}
