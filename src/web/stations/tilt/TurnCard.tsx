/** The answer of the station: how much, which way, what goes under which side, and the picture of it. */

import type { JudgedFinding, SideDocument } from '../../../core/advise/document.ts';
import { isTurn, signedTurn, whyLeft } from '../../../core/advise/turn.ts';
import type { AdviceEntry, Job } from '../../../core/job/api.ts';
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { withMove } from '../../../core/job/moveRecord.ts';
import { recordingMove, turnedBy } from '../../../core/job/stations/tilt/meterMove.ts';
import { looksEqual, turnText } from '../../../core/job/stations/tilt/turnText.ts';
import type { TiltTyped } from '../../../core/job/stations/tilt.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { makeMove, sayOutcome, undoMove } from '../../jobState.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { AdviceOutcome, Outcome, TakeBack, type Way } from '../../parts/Outcome.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { adviceOf, entryOf, findingOf, shownSide } from '../../side/shownSide.ts';
import { useMatch } from '../../useMatch.ts';
import { useStation } from '../../useStation.ts';
import { GoOn } from '../GoOn.tsx';
import { FaceView } from './FaceView.tsx';

export function TurnCard({ job, document, tilt }: { job: Job; document: SideDocument; tilt: JudgedFinding }) {
  const turn = document.advice.find(isTurn) ?? null;
  const leave = adviceOf(document, 'leave-tilt');
  const wiring = document.advice.filter(
    (advice) => advice.action === 'swap-channels' || advice.action === 'reverse-one-channel',
  );
  const wiringOpen = wiring.some((advice) => entryOf(job, advice)?.outcome.did === 'open');
  const angle = typeof tilt.value === 'number' ? tilt.value : 0;
  const text = turn === null ? null : turnText(-signedTurn(turn), turn);
  const by = turn?.amount ?? null;
  // less than the whole tilt where the whole would risk more than it gains
  const isPart = by !== null && by < 0.95 * Math.abs(angle);
  const [across, back] = [
    findingOf(document, 'separation-left-to-right'),
    findingOf(document, 'separation-right-to-left'),
  ];
  const hidden =
    turn !== null &&
    typeof across?.value === 'number' &&
    typeof back?.value === 'number' &&
    looksEqual(across.value, back.value);
  const fixed = useMatch(job.id).reading.chosen.arm?.headshell === 'fixed';
  const turned = useTurned(job);
  const entry = job.advice.find((one) => one.captureId === shownSide.value?.captureId && isTurn(one.advice));
  if (entry?.outcome.did === 'done')
    return <Turned job={job} entry={entry} tilt={tilt} onTakenBack={turned.takenBack(entry)} />;
  return (
    <section class="card turn-card" aria-label="What to turn">
      {wiring.map((advice, i) => (
        <div class="notice bad" key={advice.action}>
          <p>
            <b>Wiring first.</b> {advice.why}
          </p>
          {advice.caution !== undefined && <p class="small">{advice.caution}</p>}
          <AdviceOutcome jobId={job.id} entry={entryOf(job, advice)} main={i === 0} />
        </div>
      ))}
      <div class="do">
        <div class="stack">
          <Figure size="big" value={Math.abs(angle)} unit="deg" uncertainty={tilt.uncertainty} />
          {text !== null ? (
            <WhatToTurn
              text={text}
              trial={turn?.action === 'trial-tilt'}
              by={by}
              isPart={isPart}
              fixed={fixed}
              hidden={hidden}
            />
          ) : (
            <>
              <p class="turn">{leave === null ? 'Tilt found' : 'Leave the tilt as it is'}</p>
              {leave !== null && <p class="soft">{whyLeft(leave)}</p>}
            </>
          )}
          {turn?.caution !== undefined && <Caution>{turn.caution}</Caution>}
          {text !== null && entry !== undefined && (
            <Outcome
              jobId={job.id}
              entry={entry}
              ways={turned.waysOf(entry, document.findings, fixed)}
              main={!wiringOpen}
            />
          )}
          {!wiringOpen && (text === null || entry?.outcome.did === 'not-done') && <GoOn job={job} station="tilt" />}
        </div>
        <FaceView tiltDeg={angle} turn={text?.way ?? null} shimSide={text?.shim.side ?? null} />
      </div>
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
    </section>
  );
}

interface WhatToTurnProps {
  readonly text: ReturnType<typeof turnText>;
  readonly trial: boolean;
  /** degrees */
  readonly by: number | null;
  /** not the whole angle: that would risk more than it gains */
  readonly isPart: boolean;
  /** the headshell cannot be turned: a shim comes first */
  readonly fixed: boolean;
  /** equal separations hide the tilt */
  readonly hidden: boolean;
}

/** The turn, the shim that does the same, and how sure both are. */
function WhatToTurn({ text, trial, by, isPart, fixed, hidden }: WhatToTurnProps) {
  const shim = `${text.shim.leastMm.toFixed(2)} mm (a washer) to ${text.shim.mostMm.toFixed(2)} mm (a strip at the edge)`;
  return (
    <>
      {text.first !== '' && (
        <div class="notice">
          <p>{text.first}</p>
        </div>
      )}
      {fixed ? (
        <p class="turn">
          {trial ? 'As a trial, put' : 'Put'} <b>{shim} of shim</b> under the screw on the <b>{text.shim.side} side</b>
        </p>
      ) : (
        <p class="turn">
          {trial ? 'As a trial, turn' : 'Turn'} the cartridge <b>{text.way}</b>, seen from its face
          {by === null ? null : (
            <>
              , by <b>{showNumber(by, 2)}°</b>
            </>
          )}
        </p>
      )}
      <p class="sides">{text.sides}</p>
      <p class="soft">
        {fixed
          ? say(statement('shim-turns', { way: text.way }))
          : say(statement('or-a-shim', { least: text.shim.leastMm, most: text.shim.mostMm, side: text.shim.side }))}
      </p>
      {text.brings !== '' && <p>{text.brings}</p>}
      {hidden && (
        <div class="notice">
          <p>
            <b>{say(statement('equal-hide-tilt'))}</b> {say(statement('trust-the-angle'))}
          </p>
        </div>
      )}
      <Fold title="How sure" answer={isPart ? 'why less' : 'what is assumed'}>
        {text.tube !== '' && <p class="soft">{text.tube}</p>}
        {text.more !== '' && <p class="soft">{text.more}</p>}
      </Fold>
    </>
  );
}

interface TurnedProps {
  readonly job: Job;
  readonly entry: AdviceEntry;
  readonly tilt: JudgedFinding;
  readonly onTakenBack: (() => void) | null;
}

/** It was turned and not heard since: the next pass is what is wanted. */
function Turned({ job, entry, tilt, onTakenBack }: TurnedProps) {
  const was = shownFigure(
    typeof tilt.value === 'number' ? Math.abs(tilt.value) : tilt.value,
    tilt.unit,
    tilt.uncertainty,
  );
  return (
    <section class="card turn-card" aria-label="What to turn">
      <p class="turn" role="status">
        <b>Turned.</b> {say(statement('record-next-pass'))}
      </p>
      <p class="soft">
        {say(statement('turned-before-read', { did: entry.outcome.note || 'turned', was }))}{' '}
        {onTakenBack === null ? (
          <TakeBack jobId={job.id} entry={entry} />
        ) : (
          <button type="button" class="button plain" onClick={onTakenBack}>
            Undo
          </button>
        )}
      </p>
    </section>
  );
}

/** Turning the headshell or putting a shim in: two moves, the one that this arm allows first. */
const ways = [
  { by: 'turn-shell', says: 'I turned the headshell', note: 'headshell turned' },
  { by: 'shim', says: 'I put a shim in', note: 'shim put in' },
] as const;

/** What was turned is kept as a move of this station; the advice is answered by it, and both go when it is taken back. */
function useTurned(job: Job) {
  const { data, set } = useStation<TiltTyped>(job.id, 'tilt');
  const moves = data.moves ?? [];
  const since = epochNow(epochsOf(job.fittings)).began;
  return {
    waysOf: (entry: AdviceEntry, findings: readonly JudgedFinding[], fixed: boolean): readonly Way[] => {
      const all = ways.map(({ by, says, note }) => ({
        says,
        made: (): void => {
          const at = new Date().toISOString();
          set({ moves: withMove(moves, recordingMove(by, entry.advice, findings, at), since) });
          sayOutcome(job.id, entry.id, { did: 'done', note, at });
          makeMove(job.id, { move: by, station: 'tilt', step: at, by: turnedBy(by, signedTurn(entry.advice)) });
        },
      }));
      return fixed ? all.reverse() : all;
    },
    /** null where an earlier version kept no move of it */
    takenBack: (entry: AdviceEntry): (() => void) | null => {
      const made = moves.find(({ at }) => at === entry.outcome.at);
      if (made === undefined || made.reading !== undefined) return null;
      return () => {
        set({ moves: moves.filter((one) => one !== made) });
        undoMove(job.id, made.at);
      };
    },
  };
}
