/** What the bench knows of its own chain, in place of what is assumed: used by the next reading. */

import { readQuantity } from '../../../core/job/fields/quantity.ts';
import { type BenchTyped, benchFields, benchNames, shopBenchNames } from '../../../core/job/stations/run/bench.ts';
import type { RunTyped } from '../../../core/job/stations/run.ts';
import { say, statement } from '../../../core/words/statement.ts';
import type { Fallback } from '../../parts/FieldEntry.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { jobAndShop, setShop } from '../../shop.ts';
import { useStation } from '../../useStation.ts';
import { Calibration } from './Calibration.tsx';

export function BenchFold({ jobId }: { jobId: string }) {
  const station = useStation<RunTyped>(jobId, 'run');
  const typed: BenchTyped = station.data.bench ?? {};
  const shop: BenchTyped = jobAndShop(jobId).shop.bench ?? {};
  const fallbacks: { [Name in (typeof shopBenchNames)[number]]?: Fallback } = {};
  for (const name of shopBenchNames) {
    const read = readQuantity(shop[name], benchFields[name]);
    if ('value' in read) fallbacks[name] = { value: read.value, from: 'the shop’s' };
  }
  const own = shopBenchNames.filter((name) => (typed[name] ?? '').trim() !== '');
  const strobe = readQuantity(typed.strobe, benchFields.strobe);
  return (
    <Fold title="Strobe, drive and chain" answer={'value' in strobe ? `read as ${typed.strobe?.trim()}` : 'as assumed'}>
      <p class="soft small">{say(statement('strobe-decides'))}</p>
      <div class="fields">
        <TypedFields
          of={benchFields}
          names={benchNames}
          typed={typed}
          fallbacks={fallbacks}
          set={(patch) => station.set({ bench: { ...typed, ...patch } })}
        />
      </div>
      <Calibration onRead={(full) => station.set({ bench: { ...typed, ...full } })} />
      <div class="buttons">
        <button
          type="button"
          class="button"
          disabled={own.length === 0}
          onClick={() => {
            setShop({ bench: { ...shop, ...Object.fromEntries(own.map((name) => [name, typed[name]])) } });
            // what belongs to this playing and this drive stays
            const rest = Object.entries(typed).filter(([name]) => !own.some((one) => one === name));
            station.set({ bench: Object.fromEntries(rest) });
          }}
        >
          Make equalisation, clock and levels the shop’s
        </button>
      </div>
    </Fold>
  );
}
