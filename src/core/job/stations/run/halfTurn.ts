/**
 * Record or platter, from two recordings of a job between which the record was turned by half a turn on the platter: the page's way to
 * what `--half-turn` does on the command line.
 *
 * @checked halfTurn.test.ts
 */
import { z } from 'zod';
import { ASSUMED } from '../../../advise/budget/defaults.ts';
import type { JudgedFinding } from '../../../advise/document.ts';
import { judge } from '../../../advise/limits.ts';
import { halfTurn, type TurnAtStart } from '../../../measure/halfTurn.ts';
import { figureLines } from '../../../words/figureLines.ts';
import { quantityTitle } from '../../../words/quantities.ts';
import { type Statement, say, statement } from '../../../words/statement.ts';
import type { CaptureEntry } from '../../api.ts';
import type { ReportLine } from '../../reportLines.ts';
import { fieldText, type TypedBy } from '../stationModel.ts';

/** ids of the recordings, as it lay first and after the turn */
export const halfTurnSchema = z.strictObject({ first: fieldText.optional(), second: fieldText.optional() });
export type HalfTurnTyped = TypedBy<typeof halfTurnSchema>;

export const halfTurnFields = { label: 'Recordings with half a turn of the record between' } as const;

type Heard = Pick<CaptureEntry, 'id'> & { readonly findings: readonly JudgedFinding[] };

/** The once-per-turn swings of a recording, from where its tones start; recordings of earlier versions hold none. */
export const turnsOf = ({ findings }: Pick<Heard, 'findings'>): readonly TurnAtStart[] =>
  findings.flatMap(({ quantity, atStart, bands: [band] }) =>
    quantity !== 'once-per-turn' || atStart === undefined || band === undefined ? [] : [{ ...atStart, band }],
  );

export type HalfTurnAnswer =
  | { readonly found: true; readonly finding: JudgedFinding }
  | { readonly found: false; readonly why: Statement };

/** Null where no two recordings were named, or one of them is gone. */
export function halfTurnAnswer(typed: HalfTurnTyped, captures: readonly Heard[]): HalfTurnAnswer | null {
  const [first, second] = [typed.first, typed.second].map((id) => captures.find((one) => one.id === id));
  if (first === undefined || second === undefined || first === second) return null;
  const half = halfTurn(turnsOf(first), turnsOf(second), ASSUMED);
  return half.found ? { found: true, finding: judge(half.finding) } : half;
}

export function halfTurnLines(typed: HalfTurnTyped, captures: readonly Heard[]): readonly ReportLine[] {
  const answer = halfTurnAnswer(typed, captures);
  if (answer?.found !== true) return [];
  const { finding } = answer;
  const text = say(statement('half-turn-told', { figure: figureLines(finding)[0] }));
  return [{ label: quantityTitle(finding.quantity), text }];
}
