/** The force to set: where in the maker's range to start, warm or cold, or what was typed instead. */

import type { ForceStart } from '../../../core/advise/weigh.ts';
import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { type ForceUnit, forceWords, gOfMn } from '../../../core/job/fields/force.ts';
import type { Answer } from '../../../core/job/stations/answer.ts';
import type { Target, Travel } from '../../../core/job/stations/weigh/balance.ts';
import { forceFields, weighChoices, weighFields } from '../../../core/job/stations/weigh/weighData.ts';
import type { WeighTyped } from '../../../core/job/stations/weigh.ts';
import { say, sayAll, sentence, statement } from '../../../core/words/statement.ts';
import { Choice } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { Rests } from '../../parts/Rests.tsx';
import { ForceScale } from './ForceScale.tsx';
import { travelWords, wayWords } from './TravelCard.tsx';

export interface StartCardProps {
  readonly data: WeighTyped;
  readonly known: Facts;
  readonly start: Answer<ForceStart>;
  readonly target: Target | null;
  readonly dialMn: number | null;
  readonly weighed: { readonly mn: number; readonly uncertaintyMn: number } | null;
  /** from the floating arm to the target */
  readonly travel: Answer<Travel>;
  set(patch: WeighTyped): void;
  onUnit(unit: ForceUnit): void;
}

export function StartCard({ data, known, start, target, dialMn, weighed, travel, set, onUnit }: StartCardProps) {
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
            say(statement('target-unusable'))
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
              ? say(
                  statement('maker-states', {
                    least: forceWords(start.value.least.mn),
                    most: forceWords(start.value.most.mn),
                  }),
                )
              : sentence(start.why)}
          </p>
          {outside && (
            <div class="notice">
              <p>
                <b>{say(statement('force-outside'))}</b> {say(statement('force-outside-harm'))}
              </p>
            </div>
          )}
          {start.found && target.from === 'start' && <p>{sayAll(start.value.says)}</p>}
          {start.found && target.from === 'typed' && (
            <p>
              {sayAll([statement('to-start-with', { force: forceWords(start.value.start.mn) }), ...start.value.says])}
            </p>
          )}
          {travel.found && (
            <p class="sides from-floating">
              {say(
                statement('from-floating-arm', {
                  travel: travelWords(travel.value),
                  way: wayWords(travel.value.forwardMm.value),
                }),
              )}
            </p>
          )}
          <ForceScale leastMn={least} mostMn={most} targetMn={target.mn} dialMn={dialMn} weighed={weighed} />
        </>
      )}
      <Fold
        title="Another force, temperature, unit"
        answer={target?.from === 'typed' ? 'typed here' : `none typed; forces in ${unit}`}
      >
        <div class="fields">
          <FieldEntry
            field={forceFields.target}
            bareUnit={unit}
            words={forceWords}
            text={data.target}
            onText={(text) => set({ target: text })}
          />
          <FieldEntry
            field={weighFields.temperature}
            text={data.temperature}
            onText={(temperature) => set({ temperature })}
          />
          <Choice
            label={weighChoices.forceUnit.label}
            options={optionsOf(weighChoices.forceUnit)}
            value={unit}
            onValue={onUnit}
          />
        </div>
      </Fold>
      <Rests
        known={known}
        names={['trackingForceMinMn', 'trackingForceMaxMn', 'trackingForceRecommendedMn']}
        page="methods/balance-and-force"
        pageTitle="Balance and tracking force"
      >
        <p>{say(statement('start-rests'))}</p>
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
