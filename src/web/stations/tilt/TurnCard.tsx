/** The answer of the station: how much, which way, what goes under which side, and the picture of it. */
import type { JudgedFinding, SideDocument } from '../../../core/advise/document.ts';
import { isTurn, signedTurn } from '../../../core/advise/turn.ts';
import type { Job } from '../../../core/job/api.ts';
import { showNumber } from '../../../core/job/fields/number.ts';
import type { MoveName } from '../../../core/job/moves.ts';
import { looksEqual, turnText } from '../../../core/job/stations/tilt/turnText.ts';
import { makeMove, sayOutcome, undoMove } from '../../jobState.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { adviceOf, findingOf, shownSide } from '../../side/shownSide.ts';
import { FaceView } from './FaceView.tsx';

export function TurnCard({ job, document, tilt }: { job: Job; document: SideDocument; tilt: JudgedFinding }) {
  const turn = document.advice.find(isTurn) ?? null;
  const leave = adviceOf(document, 'leave-tilt');
  const wiring = document.advice.filter(
    (advice) => advice.action === 'swap-channels' || advice.action === 'reverse-one-channel',
  );
  const angle = typeof tilt.value === 'number' ? tilt.value : 0;
  const text = turn === null ? null : turnText(-signedTurn(turn), turn);
  // less than the whole tilt where the whole would risk more than it gains
  const part = turn?.amount != null && turn.amount < 0.95 * Math.abs(angle) ? turn.amount : null;
  const [across, back] = [
    findingOf(document, 'separation-left-to-right'),
    findingOf(document, 'separation-right-to-left'),
  ];
  const hidden =
    turn !== null &&
    typeof across?.value === 'number' &&
    typeof back?.value === 'number' &&
    looksEqual(across.value, back.value);
  return (
    <section class="card turn-card" aria-label="What to turn">
      {wiring.map((advice) => (
        <div class="notice bad" key={advice.action}>
          <p>
            <b>Wiring first.</b> {advice.why}
          </p>
          {advice.caution !== undefined && <p class="small">{advice.caution}</p>}
        </div>
      ))}
      <Figure size="big" value={Math.abs(angle)} unit="deg" uncertainty={tilt.uncertainty} />
      {text !== null ? (
        <>
          <p class="turn">
            {turn?.action === 'trial-tilt' ? 'As a trial, turn' : 'Turn'} the cartridge <b>{text.way}</b>, seen from its
            face
            {part === null ? '' : `, by ${showNumber(part, 2)}° of it`}
          </p>
          <p class="sides">{text.sides}</p>
          <p class="soft">
            or {text.shim.leastMm.toFixed(2)} mm (a washer) to {text.shim.mostMm.toFixed(2)} mm (a strip at the edge) of
            shim between headshell and cartridge at the screw on the {text.shim.side} side
          </p>
          {text.tube !== '' && <p class="soft small">{text.tube}</p>}
          {hidden && (
            <div class="notice">
              <p>
                <b>Equal separations hide this tilt.</b> {text.more}
              </p>
            </div>
          )}
          {!hidden && text.more !== '' && <p class="soft">{text.more}</p>}
        </>
      ) : (
        <>
          <p class="turn">{leave === null ? 'Tilt found' : 'Leave it as it is'}</p>
          {leave !== null && <p class="soft">{leave.why}</p>}
        </>
      )}
      <FaceView tiltDeg={angle} turn={text?.way ?? null} shimSide={text?.shim.side ?? null} />
      {turn?.caution !== undefined && <Caution>{turn.caution}</Caution>}
      <p>
        <button
          type="button"
          class="evidence-button"
          aria-haspopup="dialog"
          onClick={() => showEvidence(tilt, document)}
        >
          What this angle rests on
        </button>
      </p>
      {text !== null && <Outcome job={job} turnDeg={turn === null ? 0 : signedTurn(turn)} shimMm={text.shim.mm} />}
    </section>
  );
}

/** What the hand did about it: kept beside the advice, and whatever the move makes stale is marked. */
function Outcome({ job, turnDeg, shimMm }: { job: Job; turnDeg: number; shimMm: number }) {
  const side = shownSide.value;
  const entry = job.advice.find((one) => one.captureId === side?.captureId && isTurn(one.advice));
  if (entry === undefined) return null;
  const did = (move: MoveName, note: string): void => {
    sayOutcome(job.id, entry.id, { did: 'done', note });
    makeMove(job.id, { move, station: 'tilt', step: entry.id, by: move === 'shim' ? shimMm : turnDeg });
  };
  const takeBack = (): void => {
    sayOutcome(job.id, entry.id, { did: 'open' });
    undoMove(job.id, entry.id);
  };
  if (entry.outcome.did !== 'open') {
    return (
      <p class="soft" role="status">
        {entry.outcome.did === 'done'
          ? `Done: ${entry.outcome.note || 'turned'}. Now record the next pass and drop it here.`
          : 'Left as it was.'}{' '}
        <button type="button" class="button plain" onClick={takeBack}>
          Take that back
        </button>
      </p>
    );
  }
  return (
    <fieldset class="outcome">
      <legend>When it is done</legend>
      <div class="buttons">
        <button type="button" class="button" onClick={() => did('turn-shell', 'headshell turned')}>
          I turned the headshell
        </button>
        <button type="button" class="button" onClick={() => did('shim', 'shim put in')}>
          I put a shim in
        </button>
        <button type="button" class="button" onClick={() => sayOutcome(job.id, entry.id, { did: 'not-done' })}>
          Left as it is
        </button>
      </div>
    </fieldset>
  );
}
