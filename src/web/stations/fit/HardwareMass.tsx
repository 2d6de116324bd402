/** What screws, nuts, washers and spacer weigh, for Weigh. */

import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { quantityText } from '../../../core/job/fields/quantity.ts';
import type { ChosenParts } from '../../../core/job/matchFromParts.ts';
import { fitChoices } from '../../../core/job/stations/fit/fitData.ts';
import {
  findHardware,
  materialOf,
  type SetField,
  scaleFields,
  setFields,
  usualSet,
} from '../../../core/job/stations/fit/hardwareFound.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Choice, Select } from '../../parts/Choice.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { stationPath } from '../../route.ts';

export interface HardwareMassProps {
  readonly jobId: string;
  readonly data: FitTyped;
  readonly chosen: ChosenParts;
  readonly input: MatchInput;
  set(patch: FitTyped): void;
  onIntoMatch(grams: string): void;
}

/** g; less than this is no other mass */
const SAME_G = 0.05;

export function HardwareMass({ jobId, data, chosen, input, set, onIntoMatch }: HardwareMassProps) {
  const by = data.massBy ?? 'part';
  const found = findHardware(data, chosen);
  const massG = found.found ? found.value.massG : null;
  const differs = massG !== null && by !== 'part' && Math.abs(massG - (input.hardwareMassG ?? -1)) > SAME_G;
  return (
    <section class="card" id="hardware" aria-label="Mass of the hardware">
      <h3>What screws, nuts, washers and spacer weigh</h3>
      <Choice
        label={fitChoices.massBy.label}
        options={optionsOf(fitChoices.massBy)}
        value={by}
        onValue={(massBy) => set({ massBy })}
      />
      {by === 'weighed' && (
        <div class="fields pad">
          <TypedFields of={scaleFields} names={['weighed', 'scale']} typed={data} set={set} />
        </div>
      )}
      {by === 'calculated' && <Sizes data={data} chosen={chosen} set={set} />}
      <div aria-live="polite" class="pad">
        {found.found ? (
          <>
            {found.value.uncertaintyG === null ? (
              <p class="figure mid">
                {quantityText(found.value.massG, '')}
                <span class="unit">{'\u00a0'}g</span>
              </p>
            ) : (
              <Figure size="mid" value={found.value.massG} unit="g" uncertainty={found.value.uncertaintyG} />
            )}
            <p class="soft">
              {by === 'part' && `${say(statement('hardware-as-stated'))} `}
              {by === 'calculated' && `${say(statement('hardware-from-volumes'))} `}
              {input.cartridgeMassG === undefined
                ? say(statement('cartridge-mass-unknown-here'))
                : say(statement('with-the-cartridge', { massG: found.value.massG + input.cartridgeMassG }))}{' '}
              <a href={stationPath(jobId, 'weigh')}>Weigh</a>{' '}
              {by === 'part' ? 'has it from Match.' : 'has it from here.'}
            </p>
          </>
        ) : (
          <p class="left-out">Not known: {say(found.why)}.</p>
        )}
        {differs && massG !== null && (
          <div class="notice">
            <p>
              {input.hardwareMassG === undefined
                ? say(statement('match-knows-no-mass'))
                : say(statement('match-uses-mass', { mass: quantityText(input.hardwareMassG, 'g') }))}{' '}
              <button type="button" class="button plain" onClick={() => onIntoMatch(showNumber(massG, 2))}>
                Take {showNumber(massG, 2)} g into Match too
              </button>
            </p>
          </div>
        )}
      </div>
    </section>
  );
}

function Sizes({ data, chosen, set }: Pick<HardwareMassProps, 'data' | 'chosen' | 'set'>) {
  const usual = usualSet(data, chosen);
  const material = materialOf(data, chosen);
  return (
    <div class="fields pad">
      <Select
        label={fitChoices.material.label}
        options={optionsOf(fitChoices.material)}
        value={material}
        onValue={(value) => set({ set: { ...data.set, material: value } })}
      />
      {(Object.keys(setFields) as SetField[]).map((field) => (
        <FieldEntry
          key={field}
          field={setFields[field]}
          text={data.set?.[field]}
          onText={(text) => set({ set: { ...data.set, [field]: text } })}
          fallback={{ value: usual[field], from: 'left empty' }}
        />
      ))}
    </div>
  );
}
