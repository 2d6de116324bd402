/** The force at the tip, where the record lies: weighed, judged, brought nearer, and set down as done. */

import type { Facts } from '../../../core/job/fields/benchFacts.ts';
import { type ForceUnit, forceWords } from '../../../core/job/fields/force.ts';
import type { ForceStanding } from '../../../core/job/stations/weigh/forceStanding.ts';
import { type Statement, say, sayAll, sentence, statement } from '../../../core/words/statement.ts';
import { FindingList } from '../../parts/FindingList.tsx';
import { Rests } from '../../parts/Rests.tsx';
import { focusIn } from '../leadOn.ts';
import { Both } from './StartCard.tsx';
import { TravelFigure, wayWords } from './TravelCard.tsx';

export interface TipCardProps {
  readonly unit: ForceUnit;
  readonly known: Facts;
  readonly standing: ForceStanding;
  readonly setBefore: boolean;
  /** nothing moved since it was set */
  readonly setHolds: boolean;
  onSet(by: 'gauge' | 'dial', left: boolean): void;
}

/** What stands in place of a reading. */
function toWeigh(why: Statement, setBefore: boolean, setHolds: boolean, aimed: boolean): string {
  // without a force to set there is nothing to weigh yet
  if (!aimed && !setBefore) return sentence(why);
  if (setHolds) return say(statement('set-as-told'));
  return setBefore ? say(statement('weigh-once-more')) : `${sentence(why)} ${say(statement('weigh-and-type'))}`;
}

export function TipCard(props: TipCardProps) {
  const { unit, known, standing, setBefore, setHolds, onSet } = props;
  const { target, weighed, findings, rest, dialMn, old } = standing;
  const force = findings?.found ? findings.value.find(({ quantity }) => quantity === 'tracking-force') : undefined;
  return (
    <section class="card tip-card" aria-label="Force at the tip" aria-live="polite">
      <h3>At the tip, where the record lies</h3>
      {!weighed.found && (
        <p class={weighed.missing ? 'invite' : 'wrong-line'}>
          {weighed.missing ? toWeigh(weighed.why, setBefore, setHolds, target !== null) : sentence(weighed.why)}
        </p>
      )}
      {weighed.found && old && (
        <div class="notice">
          <p>
            <b>{say(statement('reading-is-old'))}</b>{' '}
            {say(statement('weigh-again-was-read', { force: forceWords(weighed.value.force.force.mn) }))}
          </p>
        </div>
      )}
      {weighed.found && !old && (
        <>
          <Both mn={weighed.value.force.force.mn} uncertaintyMn={weighed.value.force.uncertaintyMn} unit={unit} />
          {target === null && <p class="soft">{sayAll(weighed.value.force.notes)}</p>}
          {findings?.found && <FindingList findings={findings.value} />}
          {findings !== null && !findings.found && <p class="wrong-line">{sentence(findings.why)}</p>}
          {force !== undefined && (force.verdict === 'adjust' || force.verdict === 'bad') && rest?.found && (
            <div class="rest">
              <TravelFigure travel={rest.value} size="mid" />
              <p class="sides">
                {say(
                  statement('counterweight-brings', {
                    way: wayWords(rest.value.forwardMm.value),
                    force: forceWords(target?.mn ?? 0),
                  }),
                )}
              </p>
            </div>
          )}
        </>
      )}
      <div class="buttons">
        {weighed.found && !old && target !== null && (
          <button
            type="button"
            class={force?.verdict === 'good' ? 'button main' : 'button'}
            onClick={() => onSet('gauge', false)}
          >
            The force is set
          </button>
        )}
        {force?.verdict === 'good' && (
          <button type="button" class="button" onClick={() => onSet('gauge', true)}>
            {setBefore ? 'It was still right: nothing turned' : 'It was right as it came: nothing turned'}
          </button>
        )}
        {target === null ? (
          <a class="button main" href="#arm-figures">
            Type the maker’s range
          </a>
        ) : (
          (old || !weighed.found) && (
            <button type="button" class={setHolds ? 'button' : 'button main'} onClick={() => focusIn('#gauge')}>
              Weigh it{setHolds ? ' again' : ''}: type what the gauge shows
            </button>
          )
        )}
        {!weighed.found && weighed.missing && target !== null && dialMn !== null && (
          <button type="button" class="button" onClick={() => onSet('dial', false)}>
            Set by the dial, not weighed
          </button>
        )}
      </div>
      <Rests
        known={known}
        names={['effectiveLengthMm', 'movingMassG', 'centreBelowPivotMm', 'pivotAboveTipMm']}
        page="methods/balance-and-force"
        pageTitle="Balance and tracking force"
      >
        {weighed.found && <p>{sayAll(weighed.value.force.notes)}</p>}
        <p>{say(statement('reading-rests'))}</p>
      </Rests>
    </section>
  );
}
