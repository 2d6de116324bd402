/** Four leads on four pins: put each where it sits; what is wrong is told with how it would sound and measure. */

import { correctWiring, type Lead, leads, type Pin, pins } from '../../../core/advise/wiring/leads.ts';
import { checkWiring, pinDrawing, WIRING_CAUTIONS } from '../../../core/advise/wiring.ts';
import type { Job } from '../../../core/job/api.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { fitChoices, notLooked, type PinsLie, pinMarks, wiringOf } from '../../../core/job/stations/fit/fitData.ts';
import { leadRoles, placesFor, placeWords } from '../../../core/job/stations/fit/leadWords.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { say, sayAll, statement } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Select } from '../../parts/Choice.tsx';
import { LeadsHeard } from './LeadsHeard.tsx';
import { PinPicture } from './PinPicture.tsx';
import { UsualMiswirings, WiringAnswer } from './WiringAnswer.tsx';

export interface LeadsProps {
  readonly job: Job;
  readonly data: FitTyped;
  set(patch: FitTyped): void;
  /** says that leads were moved on the deck */
  onMoved(): void;
  /** they were not moved after all */
  onTakenBack(step: string): void;
}

export function Leads({ job, data, set, onMoved, onTakenBack }: LeadsProps) {
  const lie = data.pinsLie ?? 'usual';
  const missing = notLooked(data);
  const wiring = wiringOf(data);
  const { rewired = null } = data;
  const check = wiring === null || missing.length > 0 ? null : checkWiring(wiring);
  const sits = Object.fromEntries(
    leads.filter((lead) => !missing.includes(lead)).map((lead) => [lead, wiring?.[lead] ?? null]),
  );
  const put = (lead: Lead, pin: Pin | null): void => set({ leads: { ...data.leads, [lead]: pin } });
  return (
    <section class="card leads" id="leads" aria-label="Leads">
      <h3>Leads and pins</h3>
      <div class="leads-grid">
        <div>
          <PinPicture sits={sits} wrong={check?.moves.map((move) => move.lead) ?? []} lie={lie} />
          <p class="soft small">{say(pinDrawing.note)}</p>
        </div>
        <div class="stack lead-fields">
          <p class="lead-said">{say(statement('leads-look'))}</p>
          <div class="fields">
            {leads.map((lead) => (
              <LeadField
                key={lead}
                lead={lead}
                lie={lie}
                pin={missing.includes(lead) ? undefined : (wiring?.[lead] ?? null)}
                onPin={(pin) => put(lead, pin)}
              />
            ))}
            <Select<PinsLie>
              label={fitChoices.pinsLie.label}
              options={optionsOf(fitChoices.pinsLie)}
              value={lie}
              onValue={(pinsLie) => set({ pinsLie })}
            />
          </div>
          <div class="buttons">
            <button type="button" class="button" onClick={() => set({ leads: correctWiring })}>
              Each on its own pin
            </button>
            <button type="button" class="button plain" onClick={() => set({ leads: {} })}>
              Begin again
            </button>
          </div>
        </div>
      </div>
      <div aria-live="polite" class="wiring-answer">
        {check === null ? (
          <p class="soft">
            {missing.length === leads.length
              ? say(statement('leads-unchecked'))
              : say(statement('leads-still-to-say', { leads: missing.join(' and '), count: missing.length }))}
          </p>
        ) : (
          <WiringAnswer job={job} check={check} onRight={() => set({ leads: correctWiring })} />
        )}
      </div>
      <LeadsHeard job={job} />
      <p class="buttons">
        <button type="button" class="button" onClick={onMoved}>
          I moved leads on the deck
        </button>
        <span class="soft small" role="status">
          {rewired !== null ? say(statement('leads-noted')) : say(statement('leads-will-mark'))}
        </span>
        {rewired !== null && (
          <button
            type="button"
            class="button plain"
            aria-label="Undo moving leads"
            onClick={() => onTakenBack(rewired)}
          >
            Undo
          </button>
        )}
      </p>
      <Caution title="Leads:">{sayAll(WIRING_CAUTIONS)}</Caution>
      <UsualMiswirings job={job} />
    </section>
  );
}

interface LeadFieldProps {
  readonly lead: Lead;
  readonly lie: PinsLie;
  /** undefined: not looked at yet */
  readonly pin: Pin | null | undefined;
  onPin(pin: Pin | null): void;
}

function LeadField({ lead, lie, pin, onPin }: LeadFieldProps) {
  return (
    <Select<Pin | 'none' | '?'>
      look="lead-field"
      label={
        <>
          <span class={`swatch ${lead}`} aria-hidden="true" />
          {lead} <span class="soft">({leadRoles[lead]})</span>
        </>
      }
      value={pin === undefined ? '?' : (pin ?? 'none')}
      options={[
        ...(pin === undefined ? [{ value: '?' as const, label: 'not looked at', fixed: true }] : []),
        ...placesFor(lie).map((place) => ({
          value: place.pin,
          label: `${pinMarks[place.pin]}, ${placeWords(place)}`,
        })),
        { value: 'none', label: 'on no pin' },
      ]}
      onValue={(value) => onPin(pins.find((one) => one === value) ?? null)}
    />
  );
}
