/** The force to set: where in the maker's range to start, warm or cold, or what was typed instead. */
import type { ForceStart } from '../../../core/advise/weigh.ts';
import { QuantityField } from '../../library/QuantityField.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { type Answer, sentence } from './answer.ts';
import type { Target } from './balance.ts';
import { ForceField } from './ForceField.tsx';
import { ForceScale } from './ForceScale.tsx';
import type { Facts } from './facts.ts';
import { type ForceUnit, forceWords, gOfMn, TIP_FORCE } from './force.ts';
import { Rests } from './Rests.tsx';
import { TEMPERATURE, type WeighData } from './weighData.ts';

export interface StartCardProps {
  readonly data: Partial<WeighData>;
  readonly known: Facts;
  readonly start: Answer<ForceStart>;
  readonly target: Target | null;
  readonly dialMn: number | null;
  readonly weighed: { readonly mn: number; readonly uncertaintyMn: number } | null;
  set(patch: Partial<WeighData>): void;
  onUnit(unit: ForceUnit): void;
}

export function StartCard({ data, known, start, target, dialMn, weighed, set, onUnit }: StartCardProps) {
  const unit = data.forceUnit ?? 'g';
  const least = known.trackingForceMinMn?.value ?? null;
  const most = known.trackingForceMaxMn?.value ?? null;
  const outside = target !== null && ((least !== null && target.mn < least) || (most !== null && target.mn > most));
  return (
    <section class="card start-card" aria-label="Force to set">
      <h3>Set it to</h3>
      {target === null ? (
        <p class="invite">
          {start.found ? (
            'The force typed below cannot be used.'
          ) : (
            <>
              {sentence(start.why)} Type the range under <a href="#arm-figures">Arm and cartridge</a>, or a force of
              your own here.
            </>
          )}
        </p>
      ) : (
        <>
          <Both mn={target.mn} unit={unit} />
          <p class="soft">
            {target.from === 'typed' ? 'As typed below. ' : ''}
            {start.found
              ? `The maker states ${forceWords(start.value.least.mn)} to ${forceWords(start.value.most.mn)}.`
              : sentence(start.why)}
          </p>
          {outside && (
            <div class="notice">
              <p>
                <b>Outside the maker’s range.</b> Too light a force lets the tip lose the groove and wears more than the
                weight does; too heavy a one presses the cantilever out of its place.
              </p>
            </div>
          )}
          {start.found && target.from === 'start' && <p>{start.value.says}</p>}
          {start.found && target.from === 'typed' && (
            <p>
              To start with: {forceWords(start.value.start.mn)}. {start.value.says}
            </p>
          )}
          <ForceScale leastMn={least} mostMn={most} targetMn={target.mn} dialMn={dialMn} weighed={weighed} />
        </>
      )}
      <div class="fields">
        <ForceField
          label="Another force"
          unit={unit}
          bounds={TIP_FORCE}
          text={data.target}
          hint="Only where it is not to be the one above."
          onText={(text) => set({ target: text })}
        />
        <QuantityField
          label="Temperature of room and cartridge"
          text={data.temperature}
          hint="Cold or warm changes the suspension."
          onText={(temperature) => set({ temperature })}
          {...TEMPERATURE}
        />
        <Choice
          label="A number without a unit is in"
          options={[
            { value: 'g', label: 'g' },
            { value: 'mN', label: 'mN' },
          ]}
          value={unit}
          onValue={onUnit}
        />
      </div>
      <Rests
        known={known}
        names={['trackingForceMinMn', 'trackingForceMaxMn', 'trackingForceRecommendedMn']}
        page="methods/balance-and-force"
        pageTitle="Balance and tracking force"
      >
        <p>
          The maker’s recommendation where it lies in the range, else two thirds of the way up (common practice). A
          force that is chosen has no uncertainty; what was weighed has one. 1 g is 9.80665 mN. Pick-up data hold for 20
          to 25 °C (IEC 60098:2020, 10.1.2).
        </p>
      </Rests>
    </section>
  );
}

/** The unit that is typed in first and large, the other beneath it. */
export function Both({
  mn,
  uncertaintyMn = null,
  unit,
}: {
  mn: number;
  uncertaintyMn?: number | null;
  unit: ForceUnit;
}) {
  const shown = (one: ForceUnit, size: 'big' | 'mid') => {
    const [value, uncertainty] =
      one === 'g' ? [gOfMn(mn), uncertaintyMn === null ? null : gOfMn(uncertaintyMn)] : [mn, uncertaintyMn];
    return <Figure size={size} value={value} unit={one} uncertainty={uncertainty} />;
  };
  return (
    <div class="both">
      {shown(unit, 'big')}
      {shown(unit === 'g' ? 'mN' : 'g', 'mid')}
    </div>
  );
}
