/** Known masses laid on the gauge: how far it reads high or low, corrected from then on. */
import { useState } from 'preact/hooks';
import { type QuantityBounds, readQuantity } from '../../library/quantity.ts';
import { Figure } from '../../parts/Figure.tsx';
import { sentence } from './answer.ts';
import { calibrationOf } from './gauge.ts';
import { emptyMass, MASS, MASS_READING, MASS_WITHIN, type MassRow, type WeighData } from './weighData.ts';

const columns: readonly { key: keyof MassRow; head: string; bounds: QuantityBounds }[] = [
  { key: 'mass', head: 'Known mass', bounds: MASS },
  { key: 'within', head: 'known to within ±', bounds: MASS_WITHIN },
  { key: 'reading', head: 'Gauge showed', bounds: MASS_READING },
];

export function CalibrationForm({ data, set }: { data: Partial<WeighData>; set(patch: Partial<WeighData>): void }) {
  const rows = data.masses ?? [];
  const shown = rows.length === 0 ? [emptyMass] : rows;
  const [open, setOpen] = useState(rows.length > 0);
  const answer = calibrationOf(rows, data.gauge ?? {});
  const change = (place: number, key: keyof MassRow, text: string): void =>
    set({ masses: shown.map((row, i) => (i === place ? { ...row, [key]: text } : row)) });
  return (
    <details class="calibration" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>The gauge against known masses{answer === null ? ': not done' : ''}</summary>
      <p class="soft small">
        Zero the gauge, lay on a mass near the force, read. Two or three masses tell more than one. The ± is that of the
        mass, k = 2, as its sheet or box says.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard */}
      <section class="meter-rows scroll-x" tabIndex={0} aria-label="Known masses and what the gauge showed">
        <table>
          <thead>
            <tr>
              {columns.map(({ key, head }) => (
                <th scope="col" key={key}>
                  {head}, g
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
                {columns.map(({ key, head, bounds }) => (
                  <td key={key}>
                    <input
                      type="text"
                      inputMode="decimal"
                      autoComplete="off"
                      aria-label={`${head}, g, row ${i + 1}`}
                      aria-invalid={'wrong' in readQuantity(row[key], bounds)}
                      value={row[key]}
                      maxLength={20}
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
