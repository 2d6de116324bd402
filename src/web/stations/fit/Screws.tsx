/** Which screw from the box: length for three to four threads, from what it passes and what it turns into. */

import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { quantityText } from '../../../core/job/fields/quantity.ts';
import type { ChosenParts } from '../../../core/job/matchFromParts.ts';
import { fitChoices, type StackField, stackFields } from '../../../core/job/stations/fit/fitData.ts';
import {
  choiceFor,
  mountingOf,
  ownScrews,
  stackFromParts,
  stackOf,
} from '../../../core/job/stations/fit/screwStack.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Select } from '../../parts/Choice.tsx';
import { type Fallback, FieldEntry } from '../../parts/FieldEntry.tsx';
import { stationPath } from '../../route.ts';
import { ScrewPicture } from './ScrewPicture.tsx';

export interface ScrewsProps {
  readonly jobId: string;
  readonly data: FitTyped;
  readonly chosen: ChosenParts;
  set(patch: FitTyped): void;
}

export function Screws({ jobId, data, chosen, set }: ScrewsProps) {
  const said = stackFromParts(chosen);
  const mounting = mountingOf(data, chosen);
  const stack = stackOf(data, chosen);
  const choice = choiceFor(stack);
  const own = chosen.hardware?.screwLengthMm;
  const ownDo = own === undefined || !stack.found ? null : ownScrews(stack.value, own);
  const fields: readonly StackField[] = [
    'headshell',
    'spacer',
    'washer',
    ...(mounting === 'tapped' ? (['tapDepth'] as const) : (['flange', 'nut'] as const)),
    'pitch',
  ];
  return (
    <section class="card screws" id="screws" aria-label="Screws">
      <h3>Screws, length under the head</h3>
      <div aria-live="polite">
        {choice.found ? (
          <>
            <p class="figure big">
              {quantityText(choice.lengthMm, '')}
              <span class="unit">{'\u00a0'}mm</span>
            </p>
            <p class="sides">{say(choice.says)}</p>
            {choice.suits.length > 1 && (
              <p class="soft">
                {say(statement('screws-would-do', { lengths: choice.suits.map((mm) => `${mm} mm`).join(', ') }))}
              </p>
            )}
          </>
        ) : (
          <p class="left-out">{say(statement('no-length-yet', { why: choice.why }))}</p>
        )}
        {ownDo !== null && (
          <p>
            <span class={`verdict ${ownDo.fits ? 'good' : 'bad'}`}>{ownDo.fits ? '✓' : '✕'}</span>{' '}
            {say(statement('set-picked-has', { length: quantityText(ownDo.lengthMm, 'mm'), does: ownDo.says }))}
          </p>
        )}
      </div>
      {choice.found && stack.found && <ScrewPicture stack={stack.value} lengthMm={choice.lengthMm} />}
      <div class="fields pad">
        <Select
          label={fitChoices.mounting.label}
          options={[
            {
              value: '',
              label: chosen.cartridge?.mounting
                ? `as its data sheet says: ${fitChoices.mounting.options[chosen.cartridge.mounting]}`
                : 'not said yet',
            },
            ...optionsOf(fitChoices.mounting),
          ]}
          value={data.mounting ?? ''}
          onValue={(value) => set({ mounting: value as FitTyped['mounting'] })}
        />
        {fields.map((field) => (
          <FieldEntry
            key={field}
            field={stackFields[field]}
            text={data.stack?.[field]}
            onText={(text) => set({ stack: { ...data.stack, [field]: text } })}
            fallback={fallbackOf(field, said[field])}
            hint={said[field] === undefined && noneWithout.includes(field) ? 'none' : undefined}
          />
        ))}
      </div>
      <p class="soft small">
        Three to four threads engaged are wanted (common practice). Thicknesses come from the parts picked at{' '}
        <a href={stationPath(jobId, 'match')}>Match</a>; what is measured and typed here goes over them.{' '}
        <a href="/docs/methods/wiring">How it is calculated</a>
      </p>
    </section>
  );
}

/** A spacer or washer that nobody states is not there; every other thickness is then not known. */
const noneWithout: readonly StackField[] = ['spacer', 'washer'];

function fallbackOf(field: StackField, said: number | undefined): Fallback | null {
  if (said !== undefined) return { value: said, from: 'from the part' };
  return field === 'pitch' ? stackFields.pitch.usual : null;
}
