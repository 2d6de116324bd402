/** Tilt from a voltmeter: two readings, four voltages, or readings at several tilts; answered as they are typed. */

import { useState } from 'preact/hooks';
import type { Advice } from '../../../core/advise/document.ts';
import { type MeterKnown, meterDocument } from '../../../core/advise/meterDocument.ts';
import { ReadingsError } from '../../../core/advise/readingsCsv.ts';
import { signedTurn } from '../../../core/advise/turn.ts';
import type { TiltFromMeter } from '../../../core/advise/voltmeter.ts';
import type { Job } from '../../../core/job/api.ts';
import { epochNow, epochsOf } from '../../../core/job/epochs.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { withMove } from '../../../core/job/moveRecord.ts';
import {
  emptyRow,
  type MeterRow,
  type MeterTyped,
  meterFields,
  meterResult,
  meterWays,
  rowFields,
  rowsFromPaste,
  separationsRead,
} from '../../../core/job/stations/tilt/meter.ts';
import { afterTurn, meterMove, type TurnedBy, turnedBy, turnLeft } from '../../../core/job/stations/tilt/meterMove.ts';
import { turnText } from '../../../core/job/stations/tilt/turnText.ts';
import type { TiltTyped } from '../../../core/job/stations/tilt.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, sentence, statement } from '../../../core/words/statement.ts';
import { job, makeMove, undoMove } from '../../jobState.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { FieldRows } from '../../parts/FieldRows.tsx';
import { Figure } from '../../parts/Figure.tsx';
import { MovesMade } from '../../parts/MovesMade.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import { pickedRecord } from '../../records/recordLibrary.ts';
import { learnedRecord } from '../../side/learned.ts';
import { useStation } from '../../useStation.ts';

export function MeterForm({ job: { id: jobId, fittings } }: { job: Pick<Job, 'id' | 'fittings'> }) {
  const station = useStation<TiltTyped>(jobId, 'tilt');
  const moves = station.data.moves ?? [];
  const byMeter = moves.filter(({ reading }) => reading !== undefined);
  const typed: MeterTyped = station.data.meter ?? {};
  const set = (patch: MeterTyped): void => station.set({ meter: { ...typed, ...patch } });
  const way = typed.way ?? 'db';
  const result = meterResult(typed);
  const known = {
    cut: pickedRecord.value?.sheet.cut,
    learned: job.value?.shop.learnedOff === true ? null : learnedRecord.value?.learned,
    setByMirror: station.data.setByMirror,
  };
  const [open, setOpen] = useState(result.kind !== 'waiting' || byMeter.length > 0);
  const onTurned = (by: TurnedBy, turnDeg: number, advice: Advice): void => {
    const move = meterMove(by, turnDeg, advice, typed, new Date().toISOString());
    station.set({ meter: afterTurn(typed), moves: withMove(moves, move, epochNow(epochsOf(fittings)).began) });
    makeMove(jobId, { move: by, station: 'tilt', step: move.at, by: turnedBy(by, turnDeg) });
  };
  const onTakenBack = (): void => {
    const last = byMeter.at(-1);
    if (last === undefined) return;
    station.set({ meter: last.reading, moves: moves.filter((one) => one !== last) });
    undoMove(jobId, last.at);
  };
  return (
    <details class="fold meter" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>With a voltmeter only</h3>
      </summary>
      <div class="stack">
        <Caution>{say(statement('meter-caution'))}</Caution>
        <Choice
          label={meterWays.label}
          options={optionsOf(meterWays)}
          value={way}
          onValue={(value) => set({ way: value })}
        />
        {way === 'db' && (
          <div class="fields">
            <TypedFields
              of={meterFields}
              names={['leftToRight', 'rightToLeft', 'leftMono', 'rightMono']}
              typed={typed}
              set={set}
            />
          </div>
        )}
        {way === 'volts' && <VoltFields typed={typed} set={set} />}
        {way === 'several' && (
          <Rows rows={typed.rows ?? [emptyRow, emptyRow, emptyRow]} setRows={(rows) => set({ rows })} />
        )}
        <TypedFields of={meterFields} names={['uncertainty']} typed={typed} set={set} />
        <div aria-live="polite">
          {result.kind === 'wrong' && <p class="wrong-line">{sentence(result.why)}</p>}
          {result.kind === 'answer' && !result.answer.found && (
            <p>{say(statement('no-angle-from-readings', { why: result.answer.why }))}</p>
          )}
          {result.kind === 'answer' && result.answer.found && (
            <MeterAnswerCard answer={result.answer} known={known} onTurned={onTurned} />
          )}
        </div>
        <MovesMade moves={byMeter} now={separationsRead(typed)} onTakenBack={onTakenBack} />
      </div>
    </details>
  );
}

function VoltFields({ typed, set }: { typed: MeterTyped; set(patch: MeterTyped): void }) {
  return (
    <div class="stack">
      <div class="fields">
        <fieldset>
          <legend>On the left-only band</legend>
          <TypedFields of={meterFields} names={['leftOnLeft', 'rightOnLeft']} typed={typed} set={set} />
        </fieldset>
        <fieldset>
          <legend>On the right-only band</legend>
          <TypedFields of={meterFields} names={['rightOnRight', 'leftOnRight']} typed={typed} set={set} />
        </fieldset>
      </div>
      <p class="soft small">{say(statement('meter-same-channel'))}</p>
    </div>
  );
}

function Rows({ rows, setRows }: { rows: readonly MeterRow[]; setRows(rows: readonly MeterRow[]): void }) {
  const [problem, setProblem] = useState<string | null>(null);
  const onPaste = (event: ClipboardEvent): void => {
    const text = event.clipboardData?.getData('text') ?? '';
    if (!/[\n\r\t;]/.test(text.trim()) && (text.match(/,/g) ?? []).length < 2) return;
    event.preventDefault();
    try {
      setRows(rowsFromPaste(text));
      setProblem(null);
    } catch (error) {
      if (!(error instanceof ReadingsError)) throw error;
      setProblem(say(statement('not-pasted', { why: error.message })));
    }
  };
  return (
    <div class="stack" onPaste={onPaste}>
      <p class="soft small">{say(statement('meter-rows'))}</p>
      <FieldRows
        name="Readings at several tilts"
        of={rowFields}
        names={['tilt', 'leftToRight', 'rightToLeft']}
        rows={rows}
        setRows={setRows}
      />
      {problem !== null && <p class="wrong-line">{problem}</p>}
      <div class="buttons">
        <button type="button" class="button" onClick={() => setRows([...rows, emptyRow])}>
          Another row
        </button>
      </div>
    </div>
  );
}

interface MeterAnswerProps {
  readonly answer: TiltFromMeter;
  readonly known: MeterKnown;
  /** @param turnDeg clockwise seen from the cartridge's face positive */
  onTurned(by: TurnedBy, turnDeg: number, advice: Advice): void;
}

const ways = [
  { by: 'turn-shell', says: 'I turned the headshell by it' },
  { by: 'shim', says: 'I put a shim in for it' },
] as const;

function MeterAnswerCard({ answer, known, onTurned }: MeterAnswerProps) {
  const { findings, advice: moves } = meterDocument(answer, known);
  const [advice] = moves;
  const [left, right] = advice.predicts.map(({ value }) => value);
  const turnDeg = turnLeft(answer, advice);
  const shown = findings[findings.length - 1];
  const value = shown.value as number;
  const text = turnText(-signedTurn(advice), advice);
  const alike = Math.abs(left - right) <= 0.05;
  return (
    <div class="meter-answer">
      {shown.quantity === 'azimuth-error' ? (
        <>
          <Figure size="big" value={Math.abs(value)} unit="deg" uncertainty={shown.uncertainty} />
          {advice.action === 'leave-tilt' ? (
            <p class="turn">Leave it, as far as these readings can tell</p>
          ) : (
            <>
              {text.first !== '' && <p class="notice">{text.first}</p>}
              <p class="turn">
                {advice.action === 'trial-tilt' ? 'As a trial, turn' : 'Turn'} the cartridge <b>{text.way}</b>, seen
                from its face, by {(advice.amount ?? 0).toFixed(2)}°
              </p>
              <p class="sides">{text.sides}</p>
              <p class="soft">
                or {text.shim.leastMm.toFixed(2)} mm (a washer) to {text.shim.mostMm.toFixed(2)} mm (a strip at the
                edge) of shim at the screw on the {text.shim.side} side
              </p>
            </>
          )}
        </>
      ) : (
        <>
          <Figure size="big" value={value} unit="deg" uncertainty={shown.uncertainty} signed />
          <p class="turn">
            Least leak <b>here</b> on your tilt scale
          </p>
        </>
      )}
      <p>
        Separation will be about <b>{showNumber(left, 1)} dB</b>
        {alike ? ' both ways.' : ' left into right and '}
        {!alike && (
          <>
            <b>{showNumber(right, 1)} dB</b> right into left.
          </>
        )}
      </p>
      {text.brings !== '' && <p>{text.brings}</p>}
      <p class="soft">{text.more}</p>
      {advice.caution !== undefined && <p class="small">{advice.caution}</p>}
      {turnDeg !== null && (
        <div class="buttons">
          {ways.map(({ by, says }) => (
            <button key={by} type="button" class="button" onClick={() => onTurned(by, turnDeg, advice)}>
              {says}
            </button>
          ))}
        </div>
      )}
    </div>
  );
}
