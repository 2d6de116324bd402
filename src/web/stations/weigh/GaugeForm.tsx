/** Dial and gauge as they read, where the gauge stood, and what is known of the gauge itself. */
import { QuantityField } from '../../library/QuantityField.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { LineChart } from '../../parts/LineChart.tsx';
import { sentence } from './answer.ts';
import { CalibrationForm } from './CalibrationForm.tsx';
import { ForceField } from './ForceField.tsx';
import type { Facts } from './facts.ts';
import { TIP_FORCE } from './force.ts';
import { effectKind, forceOverHeight, heightOf, swingingArm } from './gauge.ts';
import {
  DIGIT,
  type EffectKind,
  GAUGE,
  GAUGE_HEIGHT,
  type GaugeTyped,
  USUAL_DIGIT_G,
  type WeighData,
} from './weighData.ts';

const effects: readonly { value: EffectKind; label: string }[] = [
  { value: 'arm', label: 'from the arm’s balance' },
  { value: 'two-readings', label: 'from a second reading' },
  { value: 'unknown', label: 'not known' },
];

export interface GaugeFormProps {
  readonly data: Partial<WeighData>;
  readonly known: Facts;
  /** mN, at the record; for the curve over height */
  readonly forceMn: number | null;
  set(patch: Partial<WeighData>): void;
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
    <section class="card" aria-label="Dial and gauge">
      <h3>What dial and gauge say</h3>
      <div class="fields">
        <QuantityField
          label="Gauge shows"
          text={gauge.reading}
          hint="Zeroed before, arm lowered by its lever."
          onText={(reading) => onReading({ ...gauge, reading })}
          {...GAUGE}
        />
        <ForceField
          label="Dial shows"
          unit={data.forceUnit ?? 'g'}
          bounds={TIP_FORCE}
          text={data.dial}
          hint="The mark that the ring stands at."
          onText={(dial) => set({ dial })}
        />
        <QuantityField
          label="Tip on the gauge, over its place on a record"
          text={gauge.height}
          hint="0 or empty: at record height. Lower is negative."
          onText={(text) => setGauge({ height: text })}
          {...GAUGE_HEIGHT}
        />
        <QuantityField
          label="Gauge’s last digit"
          text={gauge.digit}
          hint={`${USUAL_DIGIT_G} g is taken while nothing is typed.`}
          onText={(digit) => setGauge({ digit })}
          {...DIGIT}
        />
      </div>
      {off && (
        <div class="stack effect">
          <Choice
            label="How the force goes with height"
            options={effects}
            value={kind}
            onValue={(effect) => setGauge({ effect })}
          />
          {kind === 'two-readings' && (
            <div class="fields">
              <QuantityField
                label="Gauge shows at another height"
                text={gauge.secondReading}
                onText={(secondReading) => onReading({ ...gauge, secondReading })}
                {...GAUGE}
              />
              <QuantityField
                label="That height, over the record"
                text={gauge.secondHeight}
                onText={(secondHeight) => setGauge({ secondHeight })}
                {...GAUGE_HEIGHT}
              />
            </div>
          )}
          {kind === 'arm' && <ArmOverHeight known={known} forceMn={forceMn ?? 18} heightMm={height} />}
        </div>
      )}
      <CalibrationForm data={data} set={set} />
    </section>
  );
}

function ArmOverHeight({ known, forceMn, heightMm }: { known: Facts; forceMn: number; heightMm: number }) {
  const arm = swingingArm(known, forceMn);
  if (!arm.found) return <p class="soft">Left out: {arm.why}.</p>;
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
