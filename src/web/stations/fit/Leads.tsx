/** Four leads on four pins: put each where it sits; what is wrong is told with how it would sound and measure. */

import { useId } from 'preact/hooks';
import type { Heard } from '../../../core/advise/wiring/circuits.ts';
import type { WiringFault } from '../../../core/advise/wiring/faults.ts';
import { correctWiring, type Lead, leads, type Pin, pins } from '../../../core/advise/wiring/leads.ts';
import {
  checkWiring,
  pinDrawing,
  usualMiswirings,
  WIRING_CAUTIONS,
  type WiringCheck,
} from '../../../core/advise/wiring.ts';
import type { Job } from '../../../core/job/api.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { ofWhatIsFitted } from '../../../core/job/recordings.ts';
import type { StationName } from '../../../core/job/station.ts';
import { fitChoices, notLooked, type PinsLie, pinMarks, wiringOf } from '../../../core/job/stations/fit/fitData.ts';
import { leadRoles, placesFor, placeWords } from '../../../core/job/stations/fit/leadWords.ts';
import type { FitTyped } from '../../../core/job/stations/fit.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { quantityTitle } from '../../../core/words/quantities.ts';
import { say, sayAll, sentence } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Select } from '../../parts/Choice.tsx';
import { stationPath } from '../../route.ts';
import { PinPicture } from './PinPicture.tsx';

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
          <p class="lead-said">Look from behind and say where each lead sits.</p>
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
              ? 'Nothing is checked yet.'
              : `Still to say: where ${missing.join(' and ')} ${missing.length === 1 ? 'sits' : 'sit'}.`}
          </p>
        ) : (
          <Answer job={job} check={check} onRight={() => set({ leads: correctWiring })} />
        )}
      </div>
      <LastHeard job={job} />
      <p class="buttons">
        <button type="button" class="button" onClick={onMoved}>
          I moved leads on the deck
        </button>
        <span class="soft small" role="status">
          {rewired !== null
            ? 'Noted: what was done at Tilt and Run before is to be checked again.'
            : 'Marks what rests on the leads, to be checked again.'}
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
  const id = useId();
  const places = placesFor(lie);
  return (
    <div class="field lead-field">
      <label for={id}>
        <span class={`swatch ${lead}`} aria-hidden="true" />
        {lead} <span class="soft">({leadRoles[lead]})</span>
      </label>
      <select
        id={id}
        value={pin === undefined ? '?' : (pin ?? 'none')}
        onChange={(event) => {
          const value = event.currentTarget.value;
          onPin(pins.find((one) => one === value) ?? null);
        }}
      >
        {pin === undefined && (
          <option value="?" disabled>
            not looked at
          </option>
        )}
        {places.map((place) => (
          <option key={place.pin} value={place.pin}>
            {pinMarks[place.pin]}, {placeWords(place)}
          </option>
        ))}
        <option value="none">on no pin</option>
      </select>
    </div>
  );
}

function Answer({ job, check, onRight }: { job: Job; check: WiringCheck; onRight(): void }) {
  if (check.correct) {
    return (
      <p class="turn">
        <span class="verdict good">✓ Each lead on its own pin</span>
      </p>
    );
  }
  return (
    <>
      {check.faults.map((fault) => (
        <Fault key={fault.name} job={job} fault={fault} />
      ))}
      <div class="moves">
        <b>Move</b>
        <ul>
          {check.moves.map(({ lead, from, to }) => (
            <li key={lead}>
              <b>{lead}</b> {from === null ? 'from no pin' : `from ${pinMarks[from]}`} to <b>{pinMarks[to]}</b>
            </li>
          ))}
        </ul>
        <button type="button" class="button" onClick={onRight}>
          They are moved
        </button>
      </div>
      <details>
        <summary>What each kind of input hears of it</summary>
        <table class="rows heard">
          <thead>
            <tr>
              <th scope="col">input</th>
              <th scope="col">left hears</th>
              <th scope="col">right hears</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">returns on one ground (usual)</th>
              <td>{heardText(check.commonReturn.left)}</td>
              <td>{heardText(check.commonReturn.right)}</td>
            </tr>
            <tr>
              <th scope="row">each return apart (balanced)</th>
              <td>{heardText(check.separateReturns.left)}</td>
              <td>{heardText(check.separateReturns.right)}</td>
            </tr>
          </tbody>
        </table>
      </details>
    </>
  );
}

/** "left", "right reversed", "half of left and half of right reversed", "hum alone" */
function heardText(heard: Heard): string {
  if (heard === 'open') return 'hum alone';
  const share = (amount: number, name: string): string[] => {
    if (amount === 0) return [];
    const much = Math.abs(amount) === 1 ? '' : Math.abs(amount) === 0.5 ? 'half of ' : `${Math.abs(amount)} of `;
    return [`${much}${name}${amount < 0 ? ' reversed' : ''}`];
  };
  const parts = [...share(heard.left, 'left'), ...share(heard.right, 'right')];
  return parts.length === 0 ? 'nothing' : parts.join(' and ');
}

/** Where a finding of the recorded side stands. */
const standsAt = (quantity: string): StationName =>
  ['hum', 'second-harmonic', 'tracking-error'].includes(quantity) ? 'run' : 'tilt';

function Fault({ job, fault }: { job: Job; fault: WiringFault }) {
  return (
    <div class="notice bad fault">
      <p>
        <b>✕ {sentence(fault.title)}</b>
      </p>
      <Tells job={job} fault={fault} />
    </div>
  );
}

/** How a miswiring sounds and measures, each finding a link to where it stands. */
function Tells({ job, fault }: { job: Job; fault: WiringFault }) {
  return (
    <>
      <p>
        <span class="soft">Sounds:</span> {say(fault.sounds)}
      </p>
      <p>
        <span class="soft">Measures:</span> {say(fault.measures)}
      </p>
      <ul class="shows">
        {fault.shows.map(({ quantity, reads }) => (
          <li key={quantity}>
            <a href={stationPath(job.id, standsAt(quantity))}>{quantityTitle(quantity)}</a>: {say(reads)}
          </li>
        ))}
      </ul>
    </>
  );
}

/** What the last recorded side says of the leads, and what that would mean on the pins. */
function LastHeard({ job }: { job: Job }) {
  const heard = (['polarity', 'channel-order'] as const).flatMap((quantity) => {
    const capture = [...ofWhatIsFitted(job)].reverse().find((one) => one.findings.some((f) => f.quantity === quantity));
    const finding = capture?.findings.find((one) => one.quantity === quantity);
    return finding === undefined ? [] : [finding];
  });
  if (heard.length === 0) {
    return (
      <p class="soft small">
        No recording of what is fitted tells polarity or channel order yet: play a lateral tone and one-sided bands and
        drop them at <a href={stationPath(job.id, 'tilt')}>Tilt</a>.
      </p>
    );
  }
  const suspicion = heard.some((one) => one.value === 'antiphase')
    ? 'One channel is reversed somewhere between pins and recorder; look at its two leads first.'
    : heard.some((one) => one.value === 'swapped')
      ? 'Left and right are exchanged somewhere between pins and recorder.'
      : '';
  return (
    <div class={suspicion === '' ? 'last-heard' : 'notice last-heard'}>
      <p>
        <span class="soft">As last heard:</span>{' '}
        {heard.map((one, i) => (
          <span key={one.quantity}>
            {i > 0 && ', '}
            <a href={stationPath(job.id, standsAt(one.quantity))}>{quantityTitle(one.quantity).toLowerCase()}</a>{' '}
            {shownFigure(one.value, one.unit, one.uncertainty).replace('-', ' ')}
          </span>
        ))}
        . {suspicion}
      </p>
    </div>
  );
}

function UsualMiswirings({ job }: { job: Job }) {
  return (
    <details class="usual">
      <summary>The four usual miswirings, and how each would be known</summary>
      <ul>
        {usualMiswirings.map(({ name, wiring }) => {
          const [fault] = checkWiring(wiring).faults;
          return (
            <li key={name}>
              <b>{sentence(fault.title)}</b>
              <Tells job={job} fault={fault} />
            </li>
          );
        })}
      </ul>
      <p class="small">
        <a href="/docs/methods/wiring">How leads are checked</a>
      </p>
    </details>
  );
}
