/** From the floating arm to the force: how far the counterweight goes, and the arm in balance drawn to those numbers. */

import { type Facts, inputOf } from '../../../core/job/fields/benchFacts.ts';
import { gOfMn } from '../../../core/job/fields/force.ts';
import type { Answer } from '../../../core/job/stations/answer.ts';
import type { MatchReading } from '../../../core/job/stations/match/matchData.ts';
import type { Spread, Stand, Target, Travel } from '../../../core/job/stations/weigh/balance.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Rests } from '../../parts/Rests.tsx';
import { stationPath } from '../../route.ts';
import { ArmView } from './ArmView.tsx';

export const wayWords = (forwardMm: number): string => (forwardMm >= 0 ? 'towards the tip' : 'away from the tip');

/** Travel as the hand makes it: turns where there is a thread, mm where there is none. */
export function TravelFigure({ travel, size }: { travel: Travel; size: 'big' | 'mid' }) {
  const { turns, forwardMm } = travel;
  const one: Spread = turns ?? forwardMm;
  return (
    <Figure
      size={size}
      value={Math.abs(one.value)}
      unit={turns === null ? 'mm' : 'turns'}
      uncertainty={one.uncertainty}
    />
  );
}

/** "2.31 turns", "3.5 mm" */
export const travelWords = ({ turns, forwardMm }: Travel): string =>
  turns === null ? `${Math.abs(forwardMm.value).toFixed(1)} mm` : `${Math.abs(turns.value).toFixed(2)} turns`;

export interface TravelCardProps {
  readonly jobId: string;
  readonly known: Facts;
  readonly match: MatchReading;
  readonly target: Target | null;
  readonly travel: Answer<Travel>;
  readonly stand: Answer<Stand>;
}

export function TravelCard({ jobId, known, match, target, travel, stand }: TravelCardProps) {
  const place = stand.found ? stand.value.place : null;
  const input = inputOf(known, match);
  const { cartridgeMassG, hardwareMassG = 0, headshellMassG = 0 } = input;
  return (
    <section class="card travel-card" aria-label="Counterweight" aria-live="polite">
      <h3>Floating first, then move the counterweight</h3>
      {travel.found ? (
        <>
          <TravelFigure travel={travel.value} size="big" />
          <p class="turn">
            {wayWords(travel.value.forwardMm.value)}
            {travel.value.turns !== null && <>, {Math.abs(travel.value.forwardMm.value).toFixed(2)} mm</>}
          </p>
        </>
      ) : (
        <p class="invite">
          {sentence(travel.why)} {say(statement('type-under-or-pick'))} <a href="#arm-figures">Arm and cartridge</a>,{' '}
          <a href={stationPath(jobId, 'match')}>Match</a>
        </p>
      )}
      {known.effectiveLengthMm !== undefined && (
        <ArmView
          lengthMm={known.effectiveLengthMm.value}
          frontG={cartridgeMassG === undefined ? null : cartridgeMassG + hardwareMassG + headshellMassG}
          counterweightG={known.counterweightMassG?.value ?? null}
          floatingMm={place?.floatingMm ?? null}
          atForceMm={place?.atForceMm ?? null}
          forwardMm={travel.found ? travel.value.forwardMm.value : null}
          stubFromMm={known.stubFromMm?.value ?? null}
          stubToMm={known.stubToMm?.value ?? null}
          onStub={place?.onStub ?? null}
          targetMn={target?.mn ?? null}
        />
      )}
      {travel.found && <Steps travel={travel.value} />}
      {stand.found ? (
        <>
          <FindingList findings={stand.value.findings} />
          {stand.value.helps.map((why) => (
            <div class="notice" key={why}>
              <p>
                <b>What would help:</b> {why}
              </p>
            </div>
          ))}
        </>
      ) : (
        target !== null && <p class="soft">{say(statement('stub-place-left-out', { why: stand.why }))}</p>
      )}
      <Caution title="Before the counterweight is touched:">
        arm locked in its rest, guard on. Hold the stub and turn the weight; never push or twist against the bearings. A
        steel screwdriver or key is pulled by the cartridge’s magnet: keep it behind the pivot.
      </Caution>
      <Rests
        known={known}
        names={[
          'effectiveLengthMm',
          'counterweightMassG',
          'threadPitchMm',
          'dialPerTurnMn',
          'cartridgeMassG',
          'hardwareMassG',
          'armMomentGMm',
          'stubFromMm',
          'stubToMm',
        ]}
        page="methods/balance-and-force"
        pageTitle="Balance and tracking force"
      >
        <p>
          {say(statement('travel-rests'))}
          {hardwareMassG === 0 && cartridgeMassG !== undefined ? ` ${say(statement('screws-assumed-none'))}` : ''}
        </p>
      </Rests>
    </section>
  );
}

function Steps({ travel }: { travel: Travel }) {
  const { perMmMn, perTurnMn, dialErrorPercent } = travel;
  const rows = [
    { name: 'Each mm', force: perMmMn },
    ...(perTurnMn === null ? [] : [{ name: 'Each turn', force: perTurnMn }]),
  ];
  return (
    <table class="rows">
      <tbody>
        {rows.map(({ name, force }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>
              <Figure value={force.value} unit="mN" uncertainty={force.uncertainty} />
            </td>
            <td>
              <Figure
                value={gOfMn(force.value)}
                unit="g"
                uncertainty={force.uncertainty === null ? null : gOfMn(force.uncertainty)}
              />
            </td>
          </tr>
        ))}
        {dialErrorPercent !== null && (
          <tr>
            <th scope="row">The ring’s scale</th>
            <td colSpan={2}>
              <Figure value={dialErrorPercent.value} unit="%" uncertainty={dialErrorPercent.uncertainty} signed />
              <span class="source soft small">
                {Math.abs(dialErrorPercent.value) <= (dialErrorPercent.uncertainty ?? 0)
                  ? 'fits this weight'
                  : `says ${dialErrorPercent.value > 0 ? 'more' : 'less'} than a turn does: made for another weight`}
              </span>
            </td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
