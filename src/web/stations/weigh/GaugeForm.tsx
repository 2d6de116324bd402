/** Dial and gauge as they read, where the gauge stood, and what is known of the gauge itself. */

import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { forceWords } from '../../../core/job/fields/force.ts';
import { effectKind, forceOverHeight, heightOf, swingingArm } from '../../../core/job/stations/weigh/gauge.ts';
import { forceFields, type GaugeTyped, gaugeFields, weighChoices } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { say, sentence } from '../../../core/words/statement.ts';
import { Choice } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { LineChart } from '../../parts/LineChart.tsx';
import { CalibrationForm } from './CalibrationForm.tsx';

export interface GaugeFormProps {
  readonly data: WeighTyped;
  readonly known: Facts;
  /** mN, at the record; for the curve over height */
  readonly forceMn: number | null;
  set(patch: WeighTyped): void;
  /** a reading belongs to what stood when it was typed */
  onReading(gauge: GaugeTyped): void;
}

export function GaugeForm({ data, known, forceMn, set, onReading }: GaugeFormProps) {
  const gauge = data.gauge ?? {};
  const setGauge = (patch: GaugeTyped): void => set({ gauge: { ...gauge, ...patch } });
  const height = heightOf(gauge);
  const off = height !== null && height !== 0;
  const kind = effectKind(known, gauge);
  return (
    <section class="card" aria-label="Dial and gauge" id="gauge">
      <h3>What dial and gauge say</h3>
      <div class="fields">
        <FieldEntry
          field={gaugeFields.reading}
          text={gauge.reading}
          onText={(reading) => onReading({ ...gauge, reading })}
        />
        <FieldEntry
          field={forceFields.dial}
          bareUnit={data.forceUnit ?? 'g'}
          words={forceWords}
          text={data.dial}
          onText={(dial) => set({ dial })}
        />
      </div>
      <Fold title="The gauge" answer={off ? 'off record height' : 'at record height'}>
        <div class="fields">
          <FieldEntry field={gaugeFields.height} text={gauge.height} onText={(text) => setGauge({ height: text })} />
          <FieldEntry field={gaugeFields.digit} text={gauge.digit} onText={(digit) => setGauge({ digit })} />
        </div>
        {off && (
          <div class="stack effect">
            <Choice
              label={weighChoices.effect.label}
              options={optionsOf(weighChoices.effect)}
              value={kind}
              onValue={(effect) => setGauge({ effect })}
            />
            {kind === 'two-readings' && (
              <div class="fields">
                <FieldEntry
                  field={gaugeFields.secondReading}
                  text={gauge.secondReading}
                  onText={(secondReading) => onReading({ ...gauge, secondReading })}
                />
                <FieldEntry
                  field={gaugeFields.secondHeight}
                  text={gauge.secondHeight}
                  onText={(secondHeight) => setGauge({ secondHeight })}
                />
              </div>
            )}
            {kind === 'arm' && <ArmOverHeight known={known} forceMn={forceMn ?? 18} heightMm={height} />}
          </div>
        )}
      </Fold>
      <CalibrationForm data={data} set={set} />
    </section>
  );
}

function ArmOverHeight({ known, forceMn, heightMm }: { known: Facts; forceMn: number; heightMm: number }) {
  const arm = swingingArm(known, forceMn);
  if (!arm.found) return <p class="soft">Left out: {say(arm.why)}.</p>;
  const [from, to] = [Math.min(-2, heightMm - 1), Math.max(6, heightMm + 2)];
  const line = forceOverHeight(known, forceMn, from, to);
  if (!line.found) return <p class="wrong-line">{sentence(line.why)}</p>;
  return (
    <LineChart
      name="Force at the tip over its height"
      series={[{ name: 'force', x: line.value.x, y: line.value.y, style: 'accent' }]}
      marks={[
        { x: 0, label: 'record' },
        { x: heightMm, label: 'gauge' },
      ]}
      xLabel="tip over its place on the record"
      yLabel="force"
      xUnit="mm"
      yUnit="mN"
      xDecimals={1}
      yDecimals={2}
      height={190}
    />
  );
}
