/** Does the counterweight reach, does the arm take the cartridge, and where in its range the force starts. */

import type { MatchDocument } from '../../../core/advise/match.ts';
import { counterweightReach, startForceMn } from '../../../core/advise/matchBalance.ts';
import type { MatchInput } from '../../../core/advise/matchInput.ts';
import { mnToGramForce } from '../../../core/units/units.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { CounterweightPicture } from './CounterweightPicture.tsx';
import { Findings, LeftOut } from './Findings.tsx';
import { ForceRange } from './ForceRange.tsx';

export function BalanceCard({ input, document }: { input: MatchInput; document: MatchDocument }) {
  const reach = counterweightReach(input);
  const { trackingForceMinMn: least, trackingForceMaxMn: most, trackingForceRecommendedMn, trackingForceMn } = input;
  const start =
    least === undefined || most === undefined ? null : startForceMn(least, most, trackingForceRecommendedMn);
  return (
    <div class="do" id="balance">
      <section class="card" aria-label="Counterweight">
        <h3>Where the counterweight is</h3>
        {reach.found ? (
          <CounterweightPicture
            place={reach.place}
            fromMm={input.stubFromMm ?? null}
            toMm={input.stubToMm ?? null}
            massG={input.counterweightMassG ?? null}
          />
        ) : (
          <p class="left-out">{`Left out: ${say(reach.why)}.`}</p>
        )}
        <Findings document={document} quantities={['counterweight-position', 'carried-mass']} />
      </section>
      <section class="card" aria-label="Tracking force">
        <h3>Tracking force</h3>
        {least === undefined || most === undefined || start === null ? (
          <p class="left-out">{say(statement('force-range-unknown'))}</p>
        ) : (
          <>
            <ForceRange leastMn={least} mostMn={most} startMn={start} setMn={trackingForceMn ?? null} />
            <p>
              {say(
                statement('force-from-to', {
                  leastMn: least,
                  mostMn: most,
                  leastG: mnToGramForce(least),
                  mostG: mnToGramForce(most),
                }),
              )}{' '}
              <b>{say(statement('force-start-at', { mn: start, g: mnToGramForce(start) }))}</b>{' '}
              {say(
                statement(trackingForceRecommendedMn === start ? 'force-start-recommended' : 'force-start-two-thirds'),
              )}
            </p>
          </>
        )}
        <Findings document={document} quantities={['tracking-force', 'skating-force-inner', 'skating-force-outer']} />
        <LeftOut document={document} quantities={['skating-force-inner']} />
      </section>
    </div>
  );
}
